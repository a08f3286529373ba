export function Outline() {
  return <section aria-label="Outline" />;
}
