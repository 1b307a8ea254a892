import type { ReactNode } from "react";
import { Button } from "react-aria-components";
import { useDesk } from "../desk-context.ts";

interface CardFrameProps {
  /** What kind of thing it is, in small letters over the name. */
  readonly kind: string;
  readonly name: string;
  /** The elevation tag or verdict, in large figures under the name. */
  readonly tag?: ReactNode;
  readonly children: ReactNode;
}

/** The card on the right: what is selected, its tag, and everything that can be said or changed about it. */
export function CardFrame({ kind, name, tag, children }: CardFrameProps) {
  const { session, view } = useDesk();
  return (
    <aside className="card" aria-label={`${kind} ${name}`}>
      <header className="card-head">
        <div>
          <p className="card-kind">{kind}</p>
          <h2>{name}</h2>
        </div>
        <Button
          className="button bare"
          aria-label="Close the card"
          onPress={() => {
            session.select(null);
            view.focusSheet();
          }}
        >
          <svg viewBox="0 0 12 12" width="12" height="12" aria-hidden="true">
            <path d="M1 1l10 10M11 1L1 11" stroke="currentColor" strokeWidth="1.5" strokeLinecap="round" />
          </svg>
        </Button>
      </header>
      <div className="card-body">
        {tag !== undefined && <div className="card-tag">{tag}</div>}
        {children}
      </div>
    </aside>
  );
}

/** A part of a card under a heading of its own. */
export function CardPart({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <section className="card-part">
      <h3>{title}</h3>
      {children}
    </section>
  );
}
