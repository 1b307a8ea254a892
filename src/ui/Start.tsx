import { Button } from "react-aria-components";
import { SHORT_CAUTION } from "../issue/words.ts";
import { useDesk, useHost } from "./desk-context.ts";

/** The jobs that come with the program, by their folder in `samples`. */
const SAMPLES = [
  { folder: "riverside-workshop", name: "Riverside Workshop", says: "2 sheets, 12 runs: the one to begin with" },
  { folder: "fennick-lane-store", name: "Fennick Lane Store", says: "8 sheets, 304 runs: roofs that fall to drains" },
] as const;

/** The first page: what the program is for, the jobs kept in this browser, and the ways to begin. */
export function Start() {
  const { host } = useDesk();
  const kept = useHost((state) => state.kept);
  return (
    <main className="start">
      <div className="start-page">
        <StartPicture />
        <h1>Underside</h1>
        <p className="start-lead">
          How close does the wiring come to the roof deck? Set the scale and the deck elevations on your drawings, trace
          the wiring, and see every element's clearance with its reasons, on the sheet.
        </p>
        <div className="acts">
          <Button className="button main" onPress={() => void host.chooseFiles("drawings")}>
            Open drawings
          </Button>
          <Button className="button" onPress={() => void host.chooseFiles("job")}>
            Open a job file
          </Button>
        </div>
        <p className="quiet">PDF drawings. Everything stays on this machine: nothing is sent anywhere.</p>
        <section className="block">
          <h2>Sample jobs</h2>
          <ul className="kept">
            {SAMPLES.map(({ folder, name, says }) => (
              <li key={folder} className="kept-job">
                <Button className="button bare kept-open" onPress={() => void host.openSample(folder)}>
                  <span className="item-name">{name}</span>
                  <span className="quiet">{says}</span>
                </Button>
              </li>
            ))}
          </ul>
        </section>
        {kept.length > 0 && (
          <section className="block">
            <h2>Jobs kept in this browser</h2>
            <ul className="kept">
              {kept.map((job) => (
                <li key={job.id} className="kept-job">
                  <Button className="button bare kept-open" onPress={() => void host.openKept(job.id)}>
                    <span className="item-name">{job.name}</span>
                    <span className="quiet">{new Date(job.savedAt).toLocaleString()}</span>
                  </Button>
                  <Button
                    className="button bare small"
                    aria-label={`Delete ${job.name}`}
                    onPress={() => void host.forgetKept(job.id)}
                  >
                    Delete
                  </Button>
                </li>
              ))}
            </ul>
          </section>
        )}
        <p className="quiet start-caution">{SHORT_CAUTION}</p>
      </div>
    </main>
  );
}

/** A deck with its flutes, a fastener that comes through it, and a run hung below: what the program is about, in one line. */
function StartPicture() {
  const flutes = Array.from(
    { length: 9 },
    (_, i) => `L${i * 60 + 14} 18L${i * 60 + 22} 44L${i * 60 + 46} 44L${i * 60 + 54} 18`,
  );
  return (
    <svg className="start-picture" viewBox="0 0 540 130" aria-hidden="true">
      <path d={`M0 18${flutes.join("")}L540 18`} fill="none" stroke="var(--ink)" strokeWidth="2.5" />
      <path d="M0 10H540" stroke="var(--hair-strong)" strokeWidth="1.5" />
      <path d="M0 72H540" stroke="var(--ink)" strokeWidth="1.2" strokeDasharray="8 5" />
      <path d="M263 2h14v62l-7 14-7-14z" fill="var(--too-close)" />
      <path d="M0 104L330 96" stroke="var(--accent)" strokeWidth="13" strokeLinecap="round" />
      <path d="M330 96L540 60" stroke="var(--accent)" strokeWidth="13" strokeLinecap="round" />
    </svg>
  );
}
