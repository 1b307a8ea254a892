import { Checkbox } from "react-aria-components";

interface TickRowProps {
  readonly label: string;
  readonly isSelected: boolean;
  readonly onChange: (on: boolean) => void;
}

/** One thing that is chosen or not. */
export function TickRow({ label, isSelected, onChange }: TickRowProps) {
  return (
    <Checkbox className="tick" isSelected={isSelected} onChange={onChange}>
      <span className="tick-box">
        <svg viewBox="0 0 18 18" aria-hidden="true">
          <path d="M4 9.5l3.5 3.5L14 5.5" fill="none" stroke="currentColor" strokeWidth="2.2" strokeLinecap="round" />
        </svg>
      </span>
      <span>{label}</span>
    </Checkbox>
  );
}
