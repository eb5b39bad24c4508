/**
 * A value that is first only tried: kept after a moment without another step, when its field is left, and
 * when the page goes.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Milliseconds: long enough to see what it does, and for the next press of a stepper. */
const A_MOMENT = 1500;

export class Patience implements ReactiveController {
  private readonly host: ReactiveControllerHost & HTMLElement;
  private readonly keep: () => void;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(host: ReactiveControllerHost & HTMLElement, keep: () => void) {
    this.host = host;
    this.keep = keep;
    host.addController(this);
  }

  get waiting(): boolean {
    return this.timer !== undefined;
  }

  /** The moment begins anew. */
  begin(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(this.now, A_MOMENT);
  }

  /** It was kept, or taken back, some other way. */
  end(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }

  hostConnected(): void {
    this.host.addEventListener('focusout', this.now);
    // Before whoever writes down what was kept.
    addEventListener('pagehide', this.now, true);
    addEventListener('visibilitychange', this.hidden, true);
  }

  hostDisconnected(): void {
    this.now();
    this.host.removeEventListener('focusout', this.now);
    removeEventListener('pagehide', this.now, true);
    removeEventListener('visibilitychange', this.hidden, true);
  }

  private readonly hidden = (): void => {
    if (document.visibilityState === 'hidden') this.now();
  };

  private readonly now = (): void => {
    if (!this.waiting) return;
    this.end();
    this.keep();
  };
}
