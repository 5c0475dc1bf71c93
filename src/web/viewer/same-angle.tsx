import { useMemo } from "react";
import { type Setup, standsFor } from "../../publish/index.ts";
import { significant, type UnitSystem } from "../../quantity/index.ts";
import { certaintyOf, type Rig } from "../../rode/index.ts";
import { noEquilibriumLine } from "../../words/index.ts";
import { answerText, Row } from "./answer-text.tsx";

/** The tester's pull, and the rode of the viewer at which an anchor feels the same angle. */
export function SameAngle({
  setup,
  rig,
  units,
}: {
  readonly setup: Setup;
  readonly rig: Rig;
  readonly units: UnitSystem;
}) {
  const answer = useMemo(() => standsFor(setup, rig), [setup, rig]);
  const sure = useMemo(() => certaintyOf(setup.rig, { at: setup.at, newtons: setup.load }), [setup]);
  const { test, here, hereU, same, sameU } = answer;
  const paidOut = rig.rode.at(-1)!.name;
  return (
    <section className="panel" aria-labelledby="same">
      <h2 id="same">The same pull in your water</h2>
      {test.kind === "noEquilibrium" ? (
        <p>The tester's pull has no equilibrium: {noEquilibriumLine(test, units)}.</p>
      ) : (
        <dl>
          <Row name="the tester's pull">
            <bdi>{setup.name}</bdi>: {answerText(test.bow.tension, "force", units, sure?.bowTension)} at the bow pulled
            the anchor with {answerText(test.anchor.tension, "force", units, sure?.anchorTension)} at{" "}
            {answerText(test.anchor.angleToBottom, "angle", units, sure?.angleToBottom)} above the bottom
          </Row>
          <Row name="your rode as it is, under that load at your bow">
            {here.kind === "noEquilibrium"
              ? `${noEquilibriumLine(here, units)}.`
              : here.anchor.angleToBottom <= 0
                ? `does not lift its anchor: ${answerText(here.grounded, "length", units, hereU?.grounded)} rest on the bottom`
                : `pulls its anchor at ${answerText(here.anchor.angleToBottom, "angle", units, hereU?.angleToBottom)} above the bottom`}
          </Row>
          <Row name="for the same angle at your anchor">
            {same.kind === "noEquilibrium" ? (
              `no length of it does: ${noEquilibriumLine(same, units)}.`
            ) : (
              <>
                let out {answerText(same.partLength, "length", units, sameU)} of <bdi>{paidOut}</bdi>
                {rig.rode.length > 1 && `, ${answerText(same.length, "length", units, sameU)} of rode in all`}:{" "}
                {significant(same.scope, 3)} times the height of your bow roller above the bottom
                {same.atLiftoff && " or more: the tester's anchor was not lifted, and from there on yours is not"}
              </>
            )}
          </Row>
        </dl>
      )}
    </section>
  );
}
