const TRAVEL = {
  /** It is closed: how it would be opened is not known yet. */
  undecided:
    "Opened with --https, what travels is encrypted. Without it, somebody on this network with the right tools can read it, keys included.",
  none: "What travels is not encrypted: somebody on this network with the right tools can read it, keys included. Use it only on a network you trust.",
  given: "What travels is encrypted with the certificate you gave.",
  authority:
    "What travels is encrypted; compare the fingerprint before you let a device trust this computer's authority.",
} as const;

/** What opening to the boat's network exposes, in plain sentences, said wherever it is opened. */
export function exposure(encryption: keyof typeof TRAVEL): readonly string[] {
  return [
    "Every device that is let in can read and change the whole book: pulls, sites with their positions, logs, people's names.",
    "Everybody on this network can reach the page that asks for the code; without a key it shows nothing else.",
    TRAVEL[encryption],
    "A key lets its device in for half a year after its last use; it can be listed and withdrawn at the computer at any time.",
    "A device whose key is withdrawn is refused from its next request on; the records it last saw stay on it.",
    "It stays open until it is closed in Days, or the bench is stopped.",
  ];
}
