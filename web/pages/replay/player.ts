/** The minute that is shown, the stretch of the day around it, and the clock that moves it on. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Span } from './day-picture.ts';

/** How long a day takes to be played; minutes of the day a second. */
export const SPEEDS = [
  { value: '4', label: '2 minutes' },
  { value: '9', label: '1 minute' },
  { value: '30', label: '20 s' },
];
/** Milliseconds between two steps where the system asks for less motion, and minutes of each. */
const CALM = { every: 700, minutes: 5 };
/** Milliseconds between two steps otherwise. */
const EVERY = 50;
/** The closest look at the day, minutes. */
export const CLOSEST = 30;

export class Player implements ReactiveController {
  /** Minutes from the start of the shift. */
  now = 0;
  playing = false;
  speed = '9';
  /** The stretch looked at; null: the whole shift. */
  zoom: Span | null = null;
  /** Where the day ends, and how far its picture reaches: minutes. */
  private ends = 0;
  private whole = 0;
  private timer: ReturnType<typeof setInterval> | undefined;
  private readonly host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  /** Another day: the whole of it, at the same minute as far as there is one. */
  open(ends: number, length: number): void {
    this.ends = ends;
    this.whole = Math.max(length, Math.ceil(ends));
    this.zoom = null;
    this.now = Math.min(this.now, ends);
  }

  get span(): Span {
    return this.zoom ?? { from: 0, to: this.whole };
  }

  /** Plays on from here, or again from the start; playing already, it stops. */
  play(): void {
    if (this.playing) return this.stop();
    if (this.now >= this.ends - 1) this.now = 0;
    this.playing = true;
    this.host.requestUpdate();
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
      this.timer = setInterval(() => this.forward(CALM.minutes), CALM.every);
      return;
    }
    let last = performance.now();
    this.timer = setInterval(() => {
      const time = performance.now();
      this.forward(((time - last) / 1000) * Number(this.speed));
      last = time;
    }, EVERY);
  }

  stop(): void {
    clearInterval(this.timer);
    this.playing = false;
    this.host.requestUpdate();
  }

  /** To a minute; it is kept in the stretch that is shown. */
  to(minutes: number): void {
    this.stop();
    this.now = minutes;
    this.follow();
  }

  /** A half: twice as close; 2: half as close. */
  zoomBy(by: number): void {
    const { from, to } = this.span;
    const wide = Math.min(this.whole, (to - from) * by);
    const start = Math.min(this.whole - wide, Math.max(0, this.now - wide / 2));
    this.zoom = wide >= this.whole ? null : { from: start, to: start + wide };
    this.host.requestUpdate();
  }

  zoomOut(): void {
    this.zoom = null;
    this.host.requestUpdate();
  }

  playIn(speed: string): void {
    this.speed = speed;
    this.host.requestUpdate();
  }

  hostDisconnected(): void {
    this.stop();
  }

  private forward(minutes: number): void {
    this.now = Math.min(this.ends, this.now + minutes);
    this.follow();
    if (this.now >= this.ends) this.stop();
    this.host.requestUpdate();
  }

  private follow(): void {
    if (this.zoom === null || (this.now >= this.zoom.from && this.now <= this.zoom.to)) return;
    this.zoomBy(1);
  }
}
