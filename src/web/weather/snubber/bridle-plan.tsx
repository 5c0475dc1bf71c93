import { type Bridle, bridleAt } from "../../../sizing/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { FigureFrame } from "../../figure/figure-frame.tsx";
import { useUnits } from "../../state/preferences.ts";
import styles from "./bridle-plan.module.css";

const [WIDTH, HEIGHT] = [260, 150];

/** The bridle from above, to scale: the pull runs to the left, the bow turned by its heading, each leg as thick as its load. */
export function BridlePlan({
  rope,
  bridle,
  pull,
}: {
  /** "polyamide three-strand" */
  readonly rope: string;
  readonly bridle: Bridle;
  readonly pull: number;
}) {
  const { system, unitOf } = useUnits();
  const at = bridleAt(bridle, pull);
  const [s, c] = [Math.sin(bridle.heading), Math.cos(bridle.heading)];
  const half = bridle.beam / 2;
  const cleats = [
    { along: half * s, across: half * c },
    { along: -half * s, across: -half * c },
  ];
  const far = Math.max(at.along, 0.1);
  const scale = Math.min((WIDTH - 90) / far, (HEIGHT - 30) / (1.2 * bridle.beam + 0.01));
  const x = (along: number): number => WIDTH - 62 - along * scale;
  const y = (across: number): number => HEIGHT / 2 + across * scale;
  const most = Math.max(...at.legs, 1e-9);
  const load = (value: number) => formatQuantity(value, "force", { system, unit: unitOf("load", "force"), digits: 2 });
  const told = `Bridle from above: legs carry ${load(at.legs[0])} and ${load(at.legs[1])}.`;
  // The bow: a wedge whose cleats lie on its shoulders.
  const bow = (ahead: number, out: number): string =>
    `${x(ahead * c + out * s).toFixed(1)} ${y(-ahead * s + out * c).toFixed(1)}`;
  const made = async () => (await import("../../../publish/index.ts")).bridleFigure(rope, bridle, pull, system);
  return (
    <FigureFrame
      kind="bridle"
      title={`Bridle from above: ${rope}`}
      ownHand
      table={async () => (await made()).table}
      redrawn={async () => (await made()).draw(680, 300).svg}
    >
      <svg className={styles.plan} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={told}>
        <path
          className={styles.hull}
          d={`M${bow(0.9 * half, 0)}Q${bow(0.5 * half, 0.75 * half)} ${bow(-0.3 * half, 1.15 * half)}L${bow(-2.4 * half, 1.7 * half)}L${bow(-2.4 * half, -1.7 * half)}L${bow(-0.3 * half, -1.15 * half)}Q${bow(0.5 * half, -0.75 * half)} ${bow(0.9 * half, 0)}Z`}
        />
        {cleats.map(({ along, across }, i) => (
          <g key={across}>
            <path
              className={at.legs[i]! > 1e-3 * most ? styles.leg : styles.slack}
              strokeWidth={1.5 + (4.5 * at.legs[i]!) / most}
              d={`M${x(along)} ${y(across)}L${x(at.along)} ${y(at.across)}`}
            />
            <circle className={styles.cleat} cx={x(along)} cy={y(across)} r="3.5" />
          </g>
        ))}
        <path className={styles.pull} d={`M${x(at.along)} ${y(at.across)}h-26m7-4l-7 4l7 4`} />
      </svg>
    </FigureFrame>
  );
}
