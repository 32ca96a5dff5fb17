import { Modal } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { useState, type ReactNode } from 'react';
import { UnsavedContext, useUnsavedWithin } from './unsaved.js';
import { UnsavedQuestion } from './unsaved-question.js';

interface SheetProps {
  title: string;
  opened: boolean;
  onClose: () => void;
  size?: number;
  /** Whether closing it leaves the screen behind it as well. */
  leavesScreen?: boolean;
  children: ReactNode;
}

/**
 * A form or question over the screen; takes the whole screen on a phone. Its content is mounted only while open, and
 * closing it asks before something typed in it is lost.
 */
export function Sheet({
  title,
  opened,
  onClose,
  size = 560,
  leavesScreen = false,
  children,
}: SheetProps) {
  const phone = useMediaQuery('(max-width: 719px)') ?? false;
  const forms = useUnsavedWithin();
  const [asked, setAsked] = useState(false);
  const close = () => {
    if (forms.isAsking()) return;
    const typed = leavesScreen ? forms.anyOfScreen('close') : forms.any('close');
    // After this key press, which would answer the question at once.
    if (typed) setTimeout(() => setAsked(true));
    else onClose();
  };
  return (
    <Modal
      title={title}
      opened={opened}
      onClose={close}
      size={size}
      fullScreen={phone}
      closeOnClickOutside={false}
      transitionProps={{ duration: 0 }}
    >
      <UnsavedContext value={forms}>{children}</UnsavedContext>
      <UnsavedQuestion
        opened={asked}
        onStay={() => setAsked(false)}
        onLeave={() => {
          setAsked(false);
          onClose();
        }}
      />
    </Modal>
  );
}
