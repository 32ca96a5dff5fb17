import { TextInput } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useRef, useState, type KeyboardEvent } from 'react';
import { Link, useNavigate } from 'react-router';
import { SEARCH } from '../api/search.js';
import { SAVED_SEARCHES } from '../api/saved-searches.js';
import { useRead } from '../api/use-read.js';
import { ProblemNotice } from '../components/notice.js';
import { Sheet } from '../components/sheet.js';
import { useKeepsRecords, useOfTheHouse } from '../session/may.js';
import { type FoundList, linksOf, pagesWith, searchesWith } from './found.js';
import { everyPlaceFor } from './navigation.js';
import styles from './search.module.css';

interface SearchProps {
  opened: boolean;
  onClose: () => void;
}

/** Over any screen: records and pages with a text in them. */
export function Search({ opened, onClose }: SearchProps) {
  return (
    <Sheet title="Search" opened={opened} onClose={onClose}>
      <SearchField onGo={onClose} />
    </Sheet>
  );
}

/** What is found for a text once typing has paused; pages at once. */
function useFound(text: string) {
  const [asked] = useDebouncedValue(text.trim(), 150);
  const places = everyPlaceFor(useKeepsRecords(), useOfTheHouse());
  const { data, problem, refreshing } = useRead(
    SEARCH,
    { text: asked },
    { pause: asked === '' || text.trim() === '' },
  );
  const saved = useRead(SAVED_SEARCHES, {}).data?.savedSearches ?? [];
  if (text.trim() === '') return { lists: [], problem: null, waiting: false };
  const records = asked === '' ? [] : linksOf(data?.search ?? [], asked);
  const waiting = problem === null && (asked !== text.trim() || data === undefined || refreshing);
  const lists = [...records, ...searchesWith(saved, text), ...pagesWith(places, text)];
  return { lists, problem, waiting };
}

function SearchField({ onGo }: { onGo: () => void }) {
  const [text, setText] = useState('');
  const { lists, problem, waiting } = useFound(text);
  const around = useRef<HTMLDivElement>(null);
  const navigate = useNavigate();
  const first = lists[0]?.links[0];
  const number = lists.reduce((sum, { links }) => sum + links.length, 0);
  return (
    <div ref={around} onKeyDown={(event) => step(event, around.current)}>
      <TextInput
        label="Tag, name, place or words of a note"
        type="search"
        data-autofocus
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
        onKeyDown={(event) => {
          // What is listed may still be of the text before.
          if (event.key !== 'Enter' || first === undefined || waiting) return;
          void navigate(first.to);
          onGo();
        }}
      />
      <ProblemNotice problem={problem} />
      <p className="lw-quiet" role="status">
        {text.trim() === '' ? 'Enter opens the first, arrow keys go on.' : said(number, waiting)}
      </p>
      {lists.map((list) => (
        <FoundLinks key={list.title} list={list} onGo={onGo} />
      ))}
    </div>
  );
}

const said = (number: number, waiting: boolean): string => {
  if (waiting) return 'Searching…';
  return number === 0 ? 'Nothing found. Type less, or another word.' : `${number} found.`;
};

/** Arrow keys go from the field to what was found, and back. */
function step(event: KeyboardEvent, around: HTMLElement | null): void {
  const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
  if (by === undefined || around === null) return;
  const stops = [...around.querySelectorAll<HTMLElement>('input, a')];
  const at = stops.indexOf(document.activeElement as HTMLElement);
  const next = stops[at + by];
  if (next === undefined) return;
  event.preventDefault();
  next.focus();
}

function FoundLinks({ list, onGo }: { list: FoundList; onGo: () => void }) {
  return (
    <section className={styles['group']} aria-label={list.title}>
      <h3>{list.title}</h3>
      <ul>
        {list.links.map(({ to, title, beside, words }, at) => (
          <li key={`${to} ${at}`}>
            <Link to={to} onClick={onGo}>
              {title}
            </Link>
            {beside !== null && <span className="lw-quiet"> {beside}</span>}
            {words !== null && <div className="lw-quiet">{words}</div>}
          </li>
        ))}
        {list.more !== null && (
          <li>
            <Link to={list.more} onClick={onGo}>
              All in “{list.title}”
            </Link>
          </li>
        )}
      </ul>
    </section>
  );
}
