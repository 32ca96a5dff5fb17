import { Screen } from '../../components/screen.js';
import { Empty } from '../../components/states.js';

/** Holds the address of a screen that is still to be written. */
export function AwaitedScreen() {
  return (
    <Screen title="Not written yet">
      <Empty>This screen is not written yet.</Empty>
    </Screen>
  );
}
