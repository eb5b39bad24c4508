/** A recorder that hears everything and keeps nothing: to be overridden where a few facts are wanted. */
import type { Recorder } from './recorder.ts';

export class SilentRecorder implements Recorder {
  begin(_replication: number, _shift: number): void {}
  arrive(_time: number, _unit: number, _product: number): void {}
  keepOutside(_time: number, _unit: number, _outside: number): void {}
  enter(_time: number, _unit: number, _outside: number): void {}
  divert(_time: number, _unit: number): void {}
  join(_time: number, _unit: number, _step: number, _length: number): void {}
  start(
    _time: number,
    _unit: number,
    _step: number,
    _visit: number,
    _person: number,
    _second: number,
    _duration: number,
    _waited: number,
    _length: number,
  ): void {}
  putDown(_time: number, _unit: number, _step: number, _person: number, _left: number): void {}
  resume(_time: number, _unit: number, _step: number, _person: number, _left: number): void {}
  finish(
    _time: number,
    _unit: number,
    _step: number,
    _person: number,
    _outcome: number,
    _branch: number,
  ): void {}
  waitStart(_time: number, _unit: number, _step: number, _duration: number): void {}
  waitEnd(_time: number, _unit: number, _step: number, _outcome: number, _branch: number): void {}
  block(_time: number, _unit: number, _step: number, _to: number): void {}
  unblock(_time: number, _unit: number, _step: number, _to: number): void {}
  standAside(_time: number, _unit: number, _step: number): void {}
  release(_time: number, _unit: number, _step: number): void {}
  good(_time: number, _unit: number, _lead: number, _flow: number, _repeats: number): void {}
  again(_time: number, _unit: number): void {}
  scrap(_time: number, _unit: number): void {}
  rackSent(_time: number, _fill: number, _waited: number): void {}
  changePlaces(_time: number, _units: number): void {}
  person(_time: number, _person: number, _state: number, _overtime: boolean): void {}
  gear(_time: number, _gear: number, _item: number, _state: number, _unit: number): void {}
  targetMet(_time: number): void {}
  breakLapsed(_time: number, _person: number, _milliseconds: number): void {}
  head(_time: number, _step: number, _unit: number, _missing: number): void {}
  refusal(
    _time: number,
    _person: number,
    _step: number,
    _why: number,
    _until: number,
    _needed: number,
  ): void {}
  end(_time: number, _inside: number, _outside: number): void {}
}
