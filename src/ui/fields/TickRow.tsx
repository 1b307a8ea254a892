import { Checkbox } from "react-aria-components";
import { TickBox } from "./TickBox.tsx";

interface TickRowProps {
  readonly label: string;
  readonly isSelected: boolean;
  readonly onChange: (on: boolean) => void;
}

/** One thing that is chosen or not. */
export function TickRow({ label, isSelected, onChange }: TickRowProps) {
  return (
    <Checkbox className="tick" isSelected={isSelected} onChange={onChange}>
      <TickBox />
      <span>{label}</span>
    </Checkbox>
  );
}
