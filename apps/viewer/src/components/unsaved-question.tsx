import { Button, Modal } from '@mantine/core';
import { useContext, useEffect } from 'react';
import { UnsavedContext } from './unsaved.js';

interface UnsavedQuestionProps {
  opened: boolean;
  onStay: () => void;
  onLeave: () => void;
}

/** Asked before something typed is lost. Escape stays: the key that was pressed by mistake must not answer. */
export function UnsavedQuestion({ opened, onStay, onLeave }: UnsavedQuestionProps) {
  const forms = useContext(UnsavedContext);
  useEffect(() => {
    if (!opened) return undefined;
    const answered = forms.asks();
    // Not within the key press that answers it: other sheets hear that one too.
    return () => void setTimeout(answered);
  }, [forms, opened]);
  return (
    <Modal
      title="Not saved yet"
      opened={opened}
      onClose={onStay}
      size={420}
      zIndex={300}
      centered
      closeOnClickOutside={false}
      closeButtonProps={{ 'aria-label': 'Stay here' }}
      transitionProps={{ duration: 0 }}
    >
      <p>What you entered is not saved. If you leave now, it is lost.</p>
      <div className="lw-form-buttons">
        <Button className="lw-primary" variant="filled" data-autofocus onClick={onStay}>
          Stay here
        </Button>
        <Button onClick={onLeave}>Leave without saving</Button>
      </div>
    </Modal>
  );
}
