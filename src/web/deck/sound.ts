/** Sounds of warning, made here: nothing is fetched. A browser without sound, or before the first touch, is silent. */
let audio: AudioContext | undefined;

/** Two notes near a limit, four past it. */
export function warnBySound(past: boolean): void {
  try {
    audio ??= new AudioContext();
    const begin = audio.currentTime;
    for (let i = 0; i < (past ? 4 : 2); i++) {
      const tone = audio.createOscillator();
      const volume = audio.createGain();
      tone.frequency.value = past ? 1320 : 880;
      volume.gain.value = 0.4;
      tone.connect(volume).connect(audio.destination);
      tone.start(begin + 0.25 * i);
      tone.stop(begin + 0.25 * i + 0.15);
    }
  } catch {
    // The sign and the word stand all the same.
  }
}
