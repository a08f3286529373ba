export function Facts() {
  return <section aria-label="Facts" />;
}
