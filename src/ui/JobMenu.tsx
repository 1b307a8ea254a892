import { Button, Menu, MenuItem, MenuTrigger, Popover } from "react-aria-components";
import { useDesk } from "./desk-context.ts";

/** What concerns the job as a whole: other jobs, and saving it as a file. */
export function JobMenu() {
  const { host } = useDesk();
  const acts: Readonly<Record<string, () => void>> = {
    jobs: () => void host.showStart(),
    new: () => void host.newJob(),
    open: () => void host.chooseFiles("job"),
    save: () => void host.saveJobFile(true),
  };
  return (
    <MenuTrigger>
      <Button className="button bare small" aria-label="Job menu">
        <svg viewBox="0 0 16 4" width="16" height="4" aria-hidden="true">
          <circle cx="2" cy="2" r="1.6" fill="currentColor" />
          <circle cx="8" cy="2" r="1.6" fill="currentColor" />
          <circle cx="14" cy="2" r="1.6" fill="currentColor" />
        </svg>
      </Button>
      <Popover className="popover">
        <Menu className="choices" onAction={(key) => acts[String(key)]?.()}>
          <MenuItem id="jobs">All jobs</MenuItem>
          <MenuItem id="new">New job</MenuItem>
          <MenuItem id="open">Open a job file</MenuItem>
          <MenuItem id="save">Save a job file</MenuItem>
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}
