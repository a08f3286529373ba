export function Shelf() {
  return <section aria-label="Shelf of parts" />;
}
