/** A clip of this device: played from where it lies, never read whole and never sent. */
import { useCallback, useEffect, useState } from "react";

export interface Clip {
  readonly name: string | null;
  readonly address: string | null;
  /** s; null while it is not known. */
  readonly seconds: number | null;
  /** Why it cannot be played. */
  readonly wrong: string | null;
  readonly take: (file: File | null) => void;
  readonly known: (seconds: number) => void;
  readonly refused: () => void;
}

const nothing = { name: null, address: null, seconds: null, wrong: null } as const;

export function useClip(): Clip {
  const [clip, setClip] = useState<Pick<Clip, "name" | "address" | "seconds" | "wrong">>(nothing);
  const { address } = clip;
  useEffect(() => () => (address === null ? undefined : URL.revokeObjectURL(address)), [address]);
  const take = useCallback((file: File | null) => {
    setClip(file === null ? nothing : { ...nothing, name: file.name, address: URL.createObjectURL(file) });
  }, []);
  const known = useCallback((seconds: number) => {
    // A clip that is still being written has no end yet.
    setClip((before) => ({ ...before, seconds: Number.isFinite(seconds) ? seconds : null }));
  }, []);
  const refused = useCallback(() => {
    setClip(({ name }) => ({
      ...nothing,
      wrong: `${name ?? "the clip"}: this browser does not play it; MP4 (H.264) or WebM is expected`,
    }));
  }, []);
  return { ...clip, take, known, refused };
}
