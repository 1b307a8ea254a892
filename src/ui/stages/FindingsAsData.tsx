import { Button } from "react-aria-components";
import { useDesk, useSession } from "../desk-context.ts";

const forms = [
  { form: "json", name: "JSON", file: "findings.json", type: "application/json" },
  { form: "csv", name: "CSV", file: "findings.csv", type: "text/csv" },
] as const;

/** The findings as data: the same bytes the command line gives. */
export function FindingsAsData() {
  const { host, view } = useDesk();
  const result = useSession((state) => state.result);
  return (
    <section className="block">
      <h3>Findings as data</h3>
      <div className="acts">
        {forms.map(({ form, name, file, type }) => (
          <Button
            key={form}
            className="button small"
            isDisabled={result === null}
            onPress={() => void host.findingsText(form).then((text) => host.download(file, text, type))}
          >
            {name}
          </Button>
        ))}
        <Button
          className="button small"
          isDisabled={result === null}
          onPress={() =>
            void host
              .findingsText("text")
              .then((text) => host.copy(text))
              .then(() => view.store.setState({ said: "Findings copied as text." }))
          }
        >
          Copy as text
        </Button>
      </div>
    </section>
  );
}
