import { useState } from "react";
import { Button } from "./button.tsx";

/** A button that asks before it does what would put something else away; without a question it acts at once. */
export function AskFirst({
  children,
  question,
  yes,
  disabled = false,
  onYes,
}: {
  readonly children: string;
  readonly question: string | null;
  /** What is done, as the answer: "Replace them". */
  readonly yes: string;
  readonly disabled?: boolean;
  readonly onYes: () => void;
}) {
  const [asking, setAsking] = useState(false);
  if (!asking || question === null)
    return (
      <Button disabled={disabled} onClick={() => (question === null ? onYes() : setAsking(true))}>
        {children}
      </Button>
    );
  return (
    <span>
      <span role="alert">{question}</span>{" "}
      <Button
        ref={(button) => button?.focus()}
        onClick={() => {
          setAsking(false);
          onYes();
        }}
      >
        {yes}
      </Button>{" "}
      <Button onClick={() => setAsking(false)}>Keep them</Button>
    </span>
  );
}
