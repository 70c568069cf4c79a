/** Soon. */
export default function LeftOverPage(_: { visitId?: string | null }) {
  return null;
}
