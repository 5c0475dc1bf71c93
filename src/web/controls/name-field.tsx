import styles from "./name-field.module.css";

/** The name of what a place shows, written where its heading stands. */
export function NameField({
  label,
  value,
  onChange,
}: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (name: string) => void;
}) {
  return (
    <label className={styles.name}>
      <span className="unseen">{label}</span>
      <input
        type="text"
        value={value}
        maxLength={200}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => onChange(event.target.value)}
      />
    </label>
  );
}
