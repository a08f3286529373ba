export function CommandField() {
  return null;
}
