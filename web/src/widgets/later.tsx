// A part of the page that is fetched when it is first wanted, so that the first reading does not wait for it.
import type { ComponentChildren, ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Busy } from './busy';

export function Later<P extends object>(props: {
  load: () => Promise<ComponentType<P>>;
  props: P;
  otherwise: ComponentChildren;
}) {
  const [Part, setPart] = useState<ComponentType<P> | null>(null);
  const [missing, setMissing] = useState(false);
  useEffect(() => {
    props.load().then(
      (loaded) => setPart(() => loaded),
      () => setMissing(true),
    );
  }, []);
  if (missing) return <>{props.otherwise}</>;
  return Part ? <Part {...props.props} /> : <Busy />;
}
