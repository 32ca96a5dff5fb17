import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { LINE_CHOICES } from '../../api/lines.js';
import type { Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { TrendRead } from '../../panels/trend-read.js';

/** Whether a line moves in this trait. */
export function TrendSection({ trait, cautioned }: { trait: Trait; cautioned: boolean }) {
  const read = useRead(LINE_CHOICES, {});
  const [chosen, setChosen] = useState<string | null>(null);
  return (
    <Section title="Is a line moving?">
      <Shown read={read} what="the lines">
        {({ lines }) => {
          const line = lines.find(({ id }) => id === chosen) ?? lines[0];
          if (line === undefined)
            return <Empty>There is no line yet: make one, and put fish in it.</Empty>;
          return (
            <>
              <NativeSelect
                className="lw-choice"
                label="Line"
                value={line.id}
                data={lines.map(({ id, code, name }) => ({ value: id, label: `${code}, ${name}` }))}
                onChange={(event) => setChosen(event.currentTarget.value)}
              />
              <TrendRead key={line.id} trait={trait} line={line} cautioned={cautioned} />
            </>
          );
        }}
      </Shown>
    </Section>
  );
}
