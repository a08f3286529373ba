export function Margin() {
  return <section aria-label="Margin" />;
}
