import { useDeferredValue, useEffect, useMemo, useState } from "react";
import { boatOf, drawsFromText, type PageContent, rigOf } from "../../publish/index.ts";
import { CAUTION, INVENTED } from "../../words/index.ts";
import { Chances } from "./chances.tsx";
import { readTyped, systemOf, type Typed } from "./fields.ts";
import { Form } from "./form.tsx";
import { fragmentOf, typedOf } from "./fragment.ts";
import { InYourWind } from "./in-your-wind.tsx";
import { NotKnown } from "./not-known.tsx";
import { SameAngle } from "./same-angle.tsx";

/** A tester's pulls beside a viewer's own boat and rode. */
export function ViewerPage({
  content,
  preview = false,
}: {
  readonly content: PageContent;
  /** Within the bench, whose address is its own. */
  readonly preview?: boolean;
}) {
  const [typed, setTyped] = useState<Typed>(() => (preview ? {} : typedOf(globalThis.location.hash)));
  const read = useMemo(() => readTyped(content, typed), [content, typed]);
  const [last, setLast] = useState(read.numbers);
  if (read.numbers !== null && JSON.stringify(read.numbers) !== JSON.stringify(last)) setLast(read.numbers);
  // Fields answer the hand at once; what takes longer follows.
  const numbers = useDeferredValue(last);
  const draws = useMemo(
    () => (content.holding === null ? null : drawsFromText(content.holding.draws)),
    [content.holding],
  );
  const rig = useMemo(() => (numbers === null ? null : rigOf(content, numbers)), [content, numbers]);
  const boat = useMemo(() => (numbers === null ? null : boatOf(content, numbers)), [content, numbers]);
  const units = systemOf(content, typed);

  useEffect(() => {
    if (preview) return;
    const fragment = fragmentOf(typed);
    if (fragment !== globalThis.location.hash) history.replaceState(null, "", fragment === "" ? "#" : fragment);
  }, [typed, preview]);
  useEffect(() => {
    if (preview) return;
    const follow = () => setTyped(typedOf(globalThis.location.hash));
    globalThis.addEventListener("hashchange", follow);
    return () => globalThis.removeEventListener("hashchange", follow);
  }, [preview]);

  // In the bench the place has its own first heading and its own main part.
  const [Title, Main] = preview ? (["h3", "div"] as const) : (["h1", "main"] as const);
  return (
    <div className="viewer">
      <header className="head">
        <Title className="title">
          <bdi>{content.title}</bdi>
        </Title>
        {content.by !== "" && (
          <p className="quiet">
            Tested by <bdi>{content.by}</bdi>
          </p>
        )}
        {content.invented === true && (
          <p className="note">
            <strong>{INVENTED}</strong>
          </p>
        )}
        {content.note !== "" && (
          <p className="note">
            <bdi>{content.note}</bdi>
          </p>
        )}
      </header>
      <Main className="columns">
        <Form content={content} typed={typed} wrong={read.wrong} onChange={(part) => setTyped({ ...typed, ...part })} />
        <div className="answers">
          {read.numbers === null && (
            <p className="stale" role="status">
              A number is not understood: the answers below are still those of the numbers before.
            </p>
          )}
          {numbers === null || boat === null ? (
            <p>Put in the numbers on the left.</p>
          ) : rig === null ? (
            <p role="status">Neither chain nor rope is let out: there is no rode.</p>
          ) : (
            <>
              {content.setups[numbers.setup] !== undefined && (
                <SameAngle setup={content.setups[numbers.setup]!} rig={rig} units={units} />
              )}
              <InYourWind
                boat={boat}
                rig={rig}
                wind={numbers.wind}
                setup={content.setups[numbers.setup] ?? null}
                units={units}
              />
              {content.holding !== null && draws !== null && (
                <Chances content={content} draws={draws} boat={boat} rig={rig} numbers={numbers} units={units} />
              )}
            </>
          )}
          <NotKnown content={content} />
          <p className="caution">{CAUTION}</p>
        </div>
      </Main>
      <footer className="quiet">
        <p>
          {preview ? (
            "A link to this page with your numbers"
          ) : (
            <a href={fragmentOf(typed) || "#"}>A link to this page with your numbers</a>
          )}
          : they stand behind the # of the address. Nothing you put in is sent anywhere, and nothing is kept.
        </p>
        <p>Made by rodebench {content.program}, which is free to use.</p>
      </footer>
    </div>
  );
}
