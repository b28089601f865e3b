/** Parts that are drawn again only when what they are given has changed. */
import { Component, createElement, type FunctionComponent } from 'preact';

/**
 * Such a part: nothing in it is compared as long as each of its props is the very same. What a hook
 * keeps instead, as elements, never lets go of the tree it was first drawn in, nor that of the one before.
 */
export function still<P extends object>(Part: FunctionComponent<P>): FunctionComponent<P> {
  class Still extends Component<P> {
    override shouldComponentUpdate(next: Readonly<P>): boolean {
      return !isSame(this.props, next);
    }
    render(props: P) {
      return createElement(Part, props);
    }
  }
  return Still as unknown as FunctionComponent<P>;
}

function isSame(one: object, other: object): boolean {
  const names = Object.keys(other) as (keyof typeof other)[];
  return (
    Object.keys(one).length === names.length && names.every((name) => one[name] === other[name])
  );
}
