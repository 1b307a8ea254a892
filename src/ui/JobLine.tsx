import { type ComponentType, useEffect, useRef } from "react";
import { Button } from "react-aria-components";
import { useStore } from "zustand";
import { STAGES, type Stage } from "../editor/stage.ts";
import { useDesk, useSession } from "./desk-context.ts";
import { JobHead } from "./JobHead.tsx";
import { later } from "./later.tsx";
import { type StageState, useStages } from "./use-stages.ts";
import { stageWords } from "./words.ts";

const SheetStage = later(() => import("./desk-parts.ts").then(({ deskParts }) => deskParts.SheetStage), "with-a-desk");
const CheckStage = later(() => import("./desk-parts.ts").then(({ deskParts }) => deskParts.CheckStage), "with-a-desk");
const RoofStage = later(() => import("./stages/RoofStage.tsx").then((part) => part.RoofStage));
const WiringStage = later(() => import("./stages/WiringStage.tsx").then((part) => part.WiringStage));
const IssueStage = later(() => import("./stages/IssueStage.tsx").then((part) => part.IssueStage));

const drawers: Readonly<Record<Stage, ComponentType>> = {
  sheet: SheetStage,
  roof: RoofStage,
  wiring: WiringStage,
  check: CheckStage,
  issue: IssueStage,
};

/** The five stages of the work, what each still lacks, and the drawer of the one in hand. */
export function JobLine() {
  const { view } = useDesk();
  const open = useStore(view.store, (state) => state.drawer);
  const stage = useSession((state) => state.stage);
  const stages = useStages();
  return (
    <nav className="job-line" aria-label="Job line">
      <JobHead />
      <ol className="stages">
        {STAGES.map((one, index) => (
          <StageItem key={one} stage={one} index={index} state={stages[one]} isOpen={open && one === stage} />
        ))}
      </ol>
    </nav>
  );
}

interface StageItemProps {
  readonly stage: Stage;
  readonly index: number;
  readonly state: StageState;
  readonly isOpen: boolean;
}

function StageItem({ stage, index, state, isOpen }: StageItemProps) {
  const { session, view } = useDesk();
  const Drawer = drawers[stage];
  const item = useRef<HTMLLIElement>(null);
  useEffect(() => {
    const list = item.current?.parentElement;
    if (!isOpen || !item.current || !list) return;
    // The whole line where it fits, else from the opened stage on.
    list.scrollTop = list.scrollHeight - list.clientHeight < 8 ? 0 : item.current.offsetTop - 8;
  }, [isOpen]);
  const toggle = () => {
    if (isOpen) return view.store.setState({ drawer: false });
    session.setStage(stage);
    view.store.setState({ drawer: true });
  };
  return (
    <li ref={item} className={`stage${isOpen ? " open" : ""}${state.done ? " done" : ""}`}>
      <Button className="stage-button" aria-expanded={isOpen} aria-controls={`drawer-${stage}`} onPress={toggle}>
        <svg className="stage-mark" viewBox="0 0 24 24" aria-hidden="true">
          <circle cx="12" cy="12" r="8" />
          {state.done && <path d="M8.5 12.5l2.5 2.5 4.5-5.5" />}
        </svg>
        <span>
          <span className="stage-name">{stageWords[stage].name}</span>
          <span className="stage-lacks">{state.words}</span>
        </span>
        <span className="stage-key" aria-hidden="true">
          {index + 1}
        </span>
      </Button>
      {isOpen && (
        <section className="drawer" id={`drawer-${stage}`} aria-label={`${stageWords[stage].name} stage`}>
          <Drawer />
        </section>
      )}
    </li>
  );
}
