export function StateStrip() {
  return <section aria-label="Operating states" />;
}
