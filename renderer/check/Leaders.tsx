export function Leaders() {
  return null;
}
