import { useId, useState, type ReactNode } from 'react';
import styles from './why.module.css';

interface WhyProps {
  /** What the reason is about, read out with the button: "Why F of T24-07-12?". */
  about: string;
  figure: ReactNode;
  children: ReactNode;
  open?: boolean;
}

/** A figure that explains itself in place. */
export function Why({ about, figure, children, open = false }: WhyProps) {
  const [shown, setShown] = useState(open);
  const id = useId();
  return (
    <div>
      <span className="lw-figure">{figure}</span>
      <button
        type="button"
        className={styles['button']}
        aria-expanded={shown}
        aria-controls={id}
        aria-label={`Why ${about}?`}
        onClick={() => setShown(!shown)}
      >
        why?
      </button>
      <div id={id} className="lw-reason" hidden={!shown}>
        {shown && children}
      </div>
    </div>
  );
}
