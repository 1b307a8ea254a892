import { Button } from "react-aria-components";
import { useDesk, useHost, useSession } from "../desk-context.ts";

/** Ways to take further pages of the drawings at hand into the job. */
export function MorePages() {
  const { host } = useDesk();
  const sheets = useSession((state) => state.job.sheets);
  const drawings = useHost((state) => state.drawings);
  const files = Object.values(sheets).map(({ file }) => file.sha256);
  const partly = Object.values(drawings).filter(
    (drawing) => drawing.is === "open" && drawing.pages.length > files.filter((one) => one === drawing.sha256).length,
  );
  return partly.map(({ sha256, name }) => (
    <Button key={sha256} className="button small" onPress={() => host.askPages(sha256)}>
      Add pages of {name}
    </Button>
  ));
}
