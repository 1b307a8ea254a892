import type { Reason } from "../check/finding.ts";

/** The reasons of a finding, from the verdict down to every value read; branches open and close. */
export function ReasonsTree({ reason, openTo = 1 }: { readonly reason: Reason; readonly openTo?: number }) {
  return (
    <ul className="reasons">
      <Branch reason={reason} openTo={openTo} />
    </ul>
  );
}

function Branch({ reason, openTo }: { reason: Reason; openTo: number }) {
  if (reason.children.length === 0) {
    return (
      <li className="reason leaf">
        <Line reason={reason} />
      </li>
    );
  }
  return (
    <li className="reason">
      <details open={openTo > 0}>
        <summary>
          <Line reason={reason} />
        </summary>
        <ul>
          {reason.children.map((child, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: reasons are derived anew with every check
            <Branch key={index} reason={child} openTo={openTo - 1} />
          ))}
        </ul>
      </details>
    </li>
  );
}

function Line({ reason }: { reason: Reason }) {
  return (
    <span className="reason-line">
      <span>
        {reason.text}
        {reason.value !== undefined && (
          <>
            {/[:.]$/.test(reason.text) ? " " : ": "}
            <b className="reason-value">{reason.value}</b>
          </>
        )}
      </span>
      {reason.source !== undefined && <small className="source">{reason.source}</small>}
    </span>
  );
}
