import { Modal } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import type { ReactNode } from 'react';

interface SheetProps {
  title: string;
  opened: boolean;
  onClose: () => void;
  size?: number;
  children: ReactNode;
}

/** A form or question over the screen; takes the whole screen on a phone. Its content is mounted only while open. */
export function Sheet({ title, opened, onClose, size = 560, children }: SheetProps) {
  const phone = useMediaQuery('(max-width: 719px)') ?? false;
  return (
    <Modal
      title={title}
      opened={opened}
      onClose={onClose}
      size={size}
      fullScreen={phone}
      closeOnClickOutside={false}
      transitionProps={{ duration: 0 }}
    >
      {children}
    </Modal>
  );
}
