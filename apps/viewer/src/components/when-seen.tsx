import { useEffect, useRef, useState, type ReactNode } from 'react';

/** What costs the server much is asked for only once its place on the page comes near the view, or is printed. */
export function WhenSeen({ children }: { children: ReactNode }) {
  const place = useRef<HTMLParagraphElement>(null);
  const [seen, setSeen] = useState(false);
  useEffect(() => {
    if (seen || place.current === null) return undefined;
    const show = () => setSeen(true);
    const observer = new IntersectionObserver(
      (entries) => entries.some(({ isIntersecting }) => isIntersecting) && show(),
      { rootMargin: '120px' },
    );
    observer.observe(place.current);
    window.addEventListener('beforeprint', show);
    return () => {
      observer.disconnect();
      window.removeEventListener('beforeprint', show);
    };
  }, [seen]);
  return seen ? (
    children
  ) : (
    <p ref={place} className="lw-quiet">
      Worked out when you come to it.
    </p>
  );
}
