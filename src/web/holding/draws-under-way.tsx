import { Button } from "../controls/button.tsx";

/** How much is drawn, from 0 to 1, and a way to end it. */
export function DrawsUnderWay({ share, onStop }: { readonly share: number; readonly onStop: () => void }) {
  return (
    <>
      <progress aria-label="draws made" max={1} value={share} />
      <span>{Math.round(100 * share)} %</span>
      <Button onClick={onStop}>Stop</Button>
    </>
  );
}
