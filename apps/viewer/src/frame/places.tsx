import { useState } from 'react';
import { NavLink, useLocation } from 'react-router';
import { useKeepsRecords, useOfTheHouse } from '../session/may.js';
import { dailyPlaces, groupAt, IN_BAR, type Place, placesFor } from './navigation.js';
import styles from './frame.module.css';

interface ListedProps {
  places: readonly Place[];
  onGo?: (() => void) | undefined;
}

function Listed({ places, onGo }: ListedProps) {
  return (
    <ul>
      {places.map((place) => (
        <li key={place.to}>
          <NavLink to={place.to} {...(onGo === undefined ? {} : { onClick: onGo })}>
            {place.label}
          </NavLink>
        </li>
      ))}
    </ul>
  );
}

/** Those of whoever is signed in. */
const useGroups = () => placesFor(useKeepsRecords(), useOfTheHouse());

/** At the side: what every day needs, and groups that open; the one in which one is stands open. */
export function SidePlaces() {
  const groups = useGroups();
  const { pathname } = useLocation();
  const [opened, setOpened] = useState<Readonly<Record<string, boolean>>>({});
  const at = groupAt(groups, pathname);
  return (
    <>
      <div className={styles['nav-group']} role="group" aria-label="Every day">
        <Listed places={dailyPlaces} />
      </div>
      {groups.map(({ title, places }) => {
        const open = opened[title] ?? title === at;
        return (
          <div key={title} className={styles['nav-group']} role="group" aria-label={title}>
            <button
              type="button"
              className={styles['nav-open']}
              aria-expanded={open}
              onClick={() => setOpened({ ...opened, [title]: !open })}
            >
              {title}
            </button>
            {open && <Listed places={places} />}
          </div>
        );
      })}
    </>
  );
}

/** On a phone: all that the bar does not show, under their titles. */
export function AllPlaces({ onGo }: { onGo: () => void }) {
  const everyDay = { title: 'Every day', places: dailyPlaces.slice(IN_BAR) };
  return [everyDay, ...useGroups()].map(({ title, places }) => (
    <div key={title} className={styles['nav-group']} role="group" aria-label={title}>
      <p className={styles['nav-title']} aria-hidden="true">
        {title}
      </p>
      <Listed places={places} onGo={onGo} />
    </div>
  ));
}
