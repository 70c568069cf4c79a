/** Areas that differ by their hatching, so that no colour has to be told from another. */

/** Lines of a hatching: their angle in degrees, and how far apart they are. */
interface Hatching {
  readonly angle: number;
  readonly apart: number;
  readonly crossed?: boolean;
}

export const hatches: readonly Hatching[] = [
  { angle: 45, apart: 5 },
  { angle: 0, apart: 4 },
  { angle: -45, apart: 8 },
  { angle: 90, apart: 7 },
  { angle: 45, apart: 7, crossed: true },
  { angle: 0, apart: 9, crossed: true },
  { angle: 45, apart: 400 },
];

/** One area with a frame, drawn inside of an svg. */
export function Hatch(props: {
  id: string;
  hatch: Hatching | undefined;
  box: { readonly x: number; readonly across: number; readonly height: number };
}) {
  const { id, hatch, box } = props;
  if (!hatch) return null;
  const { angle, apart, crossed = false } = hatch;
  return (
    <>
      <pattern
        id={id}
        width={apart}
        height={apart}
        patternUnits="userSpaceOnUse"
        patternTransform={`rotate(${angle})`}
      >
        <path className="hatch-line" d={`M0 0V${apart}${crossed ? `M0 0H${apart}` : ''}`} />
      </pattern>
      <rect
        className="hatched"
        x={box.x}
        y="1"
        width={Math.max(box.across, 1)}
        height={box.height - 2}
        fill={`url(#${id})`}
      />
    </>
  );
}
