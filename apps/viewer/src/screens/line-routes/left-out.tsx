/** What could not be looked at, or was assumed. */
export function LeftOut({ sentences }: { sentences: readonly string[] }) {
  if (sentences.length === 0) return null;
  return (
    <ul className="lw-quiet">
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  );
}
