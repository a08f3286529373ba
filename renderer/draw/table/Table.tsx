export function Table() {
  return <section aria-label="Parts and wires" />;
}
