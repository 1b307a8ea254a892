import { useState } from "react";
import { Button } from "react-aria-components";
import { useDesk, useSession } from "../desk-context.ts";
import type { FindingsForm } from "../host.ts";
import { WorkBar } from "../WorkBar.tsx";

const forms = [
  { form: "json", name: "JSON", file: "findings.json", type: "application/json" },
  { form: "csv", name: "CSV", file: "findings.csv", type: "text/csv" },
] as const;

/** The findings as data: the same bytes the command line gives. */
export function FindingsAsData() {
  const { host, view } = useDesk();
  const result = useSession((state) => state.result);
  const [writing, setWriting] = useState(false);
  const [stopped, setStopped] = useState(false);
  const write = async (form: FindingsForm, done: (text: string) => unknown) => {
    setStopped(false);
    setWriting(true);
    try {
      const text = await host.findingsText(form);
      if (text === null) setStopped(true);
      else await done(text);
    } finally {
      setWriting(false);
    }
  };
  return (
    <section className="block">
      <h3>Findings as data</h3>
      <div className="acts">
        {forms.map(({ form, name, file, type }) => (
          <Button
            key={form}
            className="button small"
            isDisabled={result === null || writing}
            onPress={() => void write(form, (text) => host.download(file, text, type))}
          >
            {name}
          </Button>
        ))}
        <Button
          className="button small"
          isDisabled={result === null || writing}
          onPress={() =>
            void write("text", async (text) => {
              await host.copy(text);
              view.store.setState({ said: "Findings copied as text." });
            })
          }
        >
          Copy as text
        </Button>
      </div>
      <WorkBar work="findings" label="Writing the findings" />
      <p className="quiet" role="status">
        {stopped && "Stopped: nothing was written."}
      </p>
    </section>
  );
}
