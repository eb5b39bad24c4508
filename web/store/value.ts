/** The smallest thing that can be watched: a value that says when it is set. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';

export class Value<T> {
  private readonly listeners = new Set<(value: T) => void>();
  private value: T;

  constructor(value: T) {
    this.value = value;
  }

  get(): T {
    return this.value;
  }

  set(value: T): void {
    if (Object.is(value, this.value)) return;
    this.value = value;
    for (const listener of [...this.listeners]) listener(value);
  }

  /** Returns the way to stop. */
  subscribe(listener: (value: T) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }
}

/**
 * Draws its element again whenever one of the values is set: `private readonly watch = new Watch(this,
 * store.draft, store.faults)`.
 */
export class Watch implements ReactiveController {
  private readonly host: ReactiveControllerHost;
  private readonly values: Pick<Value<unknown>, 'subscribe'>[];
  private stops: (() => void)[] = [];

  constructor(host: ReactiveControllerHost, ...values: Pick<Value<unknown>, 'subscribe'>[]) {
    this.host = host;
    this.values = values;
    host.addController(this);
  }

  hostConnected(): void {
    this.stops = this.values.map((value) => value.subscribe(() => this.host.requestUpdate()));
    this.host.requestUpdate();
  }

  hostDisconnected(): void {
    for (const stop of this.stops) stop();
    this.stops = [];
  }
}
