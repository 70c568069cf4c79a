/** Soon. */
export default function DayPage(_: { visitId?: string | null }) {
  return null;
}
