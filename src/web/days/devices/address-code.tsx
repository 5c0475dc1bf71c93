import { useMemo } from "react";
import styles from "./devices.module.css";
import { squareCode } from "./square-code.ts";

/** An address to be read by a camera: a QR code, dark on light whatever the theme. */
export function AddressCode({ address }: { readonly address: string }) {
  const { size, path } = useMemo(() => squareCode(address), [address]);
  return (
    <svg
      className={styles.picture}
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={`QR code of ${address}`}
      shapeRendering="crispEdges"
    >
      <rect width={size} height={size} fill="#ffffff" />
      <path d={path} fill="#000000" />
    </svg>
  );
}
