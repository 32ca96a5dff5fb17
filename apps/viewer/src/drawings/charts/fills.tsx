/** Fills told apart by pattern as well as by colour. Index 0 is solid. */
export const FILL_COUNT = 8;

const COLOURS = ['var(--d-accent)', 'var(--d-accent-2)', 'var(--d-good)', 'var(--d-warn)'];

function marks(kind: number) {
  switch (kind) {
    case 0:
      return <rect width="8" height="8" />;
    case 1:
      return <path d="M-2 2L2 -2M0 8L8 0M6 10L10 6" strokeWidth="2.6" />;
    case 2:
      return <circle cx="4" cy="4" r="2.2" />;
    case 3:
      return <path d="M0 2H8M0 6H8" strokeWidth="1.8" />;
    case 4:
      return <path d="M-2 6L2 10M0 0L8 8M6 -2L10 2" strokeWidth="1.6" />;
    case 5:
      return <path d="M2 0V8M6 0V8" strokeWidth="1.8" />;
    case 6:
      return <path d="M0 4H8M4 0V8" strokeWidth="1.6" />;
    default:
      return <path d="M0 8L8 0M0 0L8 8" strokeWidth="1.2" />;
  }
}

export function fillId(scope: string, index: number): string {
  return `${scope}-fill-${index % FILL_COUNT}`;
}

/** Pattern definitions for one drawing; `scope` keeps their ids apart from other drawings on the page. */
export function FillDefinitions({ scope }: { readonly scope: string }) {
  return (
    <defs>
      {Array.from({ length: FILL_COUNT }, (_, i) => (
        <pattern
          key={i}
          id={fillId(scope, i)}
          width="8"
          height="8"
          patternUnits="userSpaceOnUse"
          style={{ color: COLOURS[i % COLOURS.length] }}
        >
          <rect width="8" height="8" fill="var(--d-paper)" />
          <g
            fill={i === 0 || i === 2 ? 'currentColor' : 'none'}
            stroke={i === 0 ? 'none' : 'currentColor'}
          >
            {marks(i)}
          </g>
        </pattern>
      ))}
    </defs>
  );
}
