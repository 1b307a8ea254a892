import { findRacewayKind } from "../../trade/raceways.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { allRacewayChoices, sizeChoices } from "../trade-choices.ts";

/** While a run is being traced: what it is traced as. Changing it starts the tool anew, before the first point only. */
export function NextRun() {
  const { session, view } = useDesk();
  const tool = useSession((state) => state.tool);
  if (tool.tool !== "trace-run" && tool.tool !== "follow-line") return null;
  const run = tool.tool === "trace-run" ? tool : tool.run;
  const { type, tradeSize } = run.wiring;
  const start = (next: string, size: string) => {
    session.start({ tool: tool.tool, type: next, tradeSize: size });
    view.focusSheet();
  };
  if (run.vertices.length > 0)
    return (
      <p className="quiet">
        Tracing {findRacewayKind(type)?.short ?? type} {tradeSize}.
      </p>
    );
  return (
    <div className="pair">
      <ChoiceRow
        label="Next run"
        value={type}
        options={allRacewayChoices}
        onChange={(next) =>
          start(
            next,
            findRacewayKind(next)?.sizes.find(({ size }) => size === tradeSize)?.size ??
              findRacewayKind(next)?.sizes[0]?.size ??
              "",
          )
        }
      />
      <ChoiceRow label="Size" value={tradeSize} options={sizeChoices(type)} onChange={(size) => start(type, size)} />
    </div>
  );
}
