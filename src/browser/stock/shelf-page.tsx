/** Soon. */
export default function ShelfPage(_: { visitId?: string | null }) {
  return null;
}
