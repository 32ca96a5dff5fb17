import styles from './session.module.css';
export function Masthead() {
  return (
    <p className={styles['masthead']}>
      <img src="/mark.svg" alt="" width="28" height="28" /> Linewright
    </p>
  );
}
