import styles from './qr-code.module.css';

interface QrCodeProps {
  qr: { size: number; path: string };
  /** What it says, for whoever does not see it. */
  label: string;
}

/** A QR code: dark on light in either look, since phones read it so. */
export function QrCode({ qr: { size, path }, label }: QrCodeProps) {
  return (
    <svg
      className={styles['code']}
      role="img"
      aria-label={label}
      viewBox={`0 0 ${size} ${size}`}
      shapeRendering="crispEdges"
    >
      <path d={path} />
    </svg>
  );
}
