/** The box of something that is chosen or not; its look follows the checkbox around it. */
export function TickBox() {
  return (
    <span className="tick-box">
      <svg viewBox="0 0 18 18" aria-hidden="true">
        <path d="M4 9.5l3.5 3.5L14 5.5" fill="none" stroke="currentColor" strokeWidth="2.2" strokeLinecap="round" />
      </svg>
    </span>
  );
}
