export function Masthead() {
  return (
    <p className="lw-masthead">
      <img src="/mark.svg" alt="" width="28" height="28" /> Linewright
    </p>
  );
}
