import { Button, FileButton, TextInput, Textarea } from '@mantine/core';
import { useState } from 'react';
import {
  OWN_INSTALL,
  PAIR_INSTALL,
  PARTNER_INSTALLS,
  type Partner,
  RENEW_INSTALL_KEYS,
} from '../../api/partners.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';
import { qrTextOf } from '../../components/read-qr.js';
import { QrCode } from '../../components/qr-code.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { useUnsaved } from '../../components/unsaved.js';
import { OwnPasswordForm } from '../people/password-field.js';
import { PartnerCard } from './partner-card.js';
import styles from './partners.module.css';

/** Installs of partners, and what goes between them and this one. */
export function PartnersSection({ onTaken }: { onTaken: () => void }) {
  const read = useRead(PARTNER_INSTALLS, {});
  const changed = () => {
    read.reload();
    onTaken();
  };
  return (
    <Section title="Partners">
      <p className="lw-words">
        With a partner who has an install of their own, a line stays in step by itself through a
        folder that both machines reach. Pair the two once: give each other the code below (it is
        too long to read out: copy it, or photograph its picture), then read the six words to each
        other.
      </p>
      <Shown read={read} what="the partners">
        {({ partnerInstalls }) => (
          <>
            {partnerInstalls.map((partner: Partner) => (
              <PartnerCard key={partner.id} partner={partner} onChanged={changed} />
            ))}
          </>
        )}
      </Shown>
      <PairForm onPaired={changed} />
      <OwnCode />
    </Section>
  );
}

function PairForm({ onPaired }: { onPaired: () => void }) {
  const [code, setCode] = useState('');
  const [name, setName] = useState('');
  const { save, saving, problem } = useSave(PAIR_INSTALL);
  useUnsaved(code.trim() !== '' || name.trim() !== '');
  const pair = async () => {
    const given = name.trim() === '' ? null : name.trim();
    if ((await save({ input: { code, name: given } })) === null) return;
    setCode('');
    setName('');
    onPaired();
  };
  return (
    <div className="lw-form">
      <h3>Pair with a partner</h3>
      <Textarea
        label="The partner’s code"
        minRows={2}
        value={code}
        onChange={(event) => setCode(event.currentTarget.value)}
      />
      <ReadPicture onRead={setCode} />
      <TextInput
        label="Name them here"
        description="Left blank, they are called as they call themselves."
        value={name}
        onChange={(event) => setName(event.currentTarget.value)}
      />
      <ProblemNotice problem={problem} />
      <div className="lw-form-buttons">
        <Button disabled={code.trim() === ''} loading={saving} onClick={() => void pair()}>
          Pair
        </Button>
      </div>
    </div>
  );
}

/** A photo of the partner's screen, or a picture they sent, in place of copying the code. */
function ReadPicture({ onRead }: { onRead: (code: string) => void }) {
  const [failed, setFailed] = useState(false);
  const read = async (file: File | null) => {
    if (file === null) return;
    const code = await qrTextOf(file);
    setFailed(code === null);
    if (code !== null) onRead(code);
  };
  return (
    <>
      <FileButton
        accept="image/*"
        inputProps={{ 'aria-label': 'Picture of a QR code' }}
        onChange={(file) => void read(file)}
      >
        {(props) => <Button {...props}>Read it from a picture</Button>}
      </FileButton>
      {failed && (
        <p role="alert">
          No code was found in that picture. Take it straight from the front, with the whole square
          and its light edge in it, or copy the code.
        </p>
      )}
    </>
  );
}

function OwnCode() {
  const read = useRead(OWN_INSTALL, {});
  const [renewing, setRenewing] = useState(false);
  return (
    <>
      <h3>Your code</h3>
      <Shown read={read} what="your code">
        {({ ownInstall: { code, words, qr } }) => (
          <>
            <p className="lw-words">
              There is no secret in it. Your words:{' '}
              <strong className={styles['words']}>{words}</strong>
            </p>
            <Textarea label="Your code, to copy" readOnly autosize value={code} />
            <QrCode qr={qr} label="Your code as a QR code" />
          </>
        )}
      </Shown>
      <div className="lw-form-buttons">
        <Button variant="default" onClick={() => setRenewing(true)}>
          Make new keys
        </Button>
      </div>
      <Sheet title="Make new keys" opened={renewing} onClose={() => setRenewing(false)}>
        <OwnPasswordForm
          mutation={RENEW_INSTALL_KEYS}
          submit="Make new keys"
          onCancel={() => setRenewing(false)}
          onSaved={() => {
            setRenewing(false);
            read.reload();
          }}
        >
          <p>
            Do this when somebody else may have a copy of this machine’s files, or when the keys can
            no longer be opened. To your partners this is another install then: give each of them
            the new code, and compare the words again.
          </p>
        </OwnPasswordForm>
      </Sheet>
    </>
  );
}
