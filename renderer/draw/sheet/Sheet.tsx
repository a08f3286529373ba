export function Sheet() {
  return <section aria-label="Sheet" />;
}
