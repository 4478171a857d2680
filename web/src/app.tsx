// Which screen for which address and person. Screens that a bench does not need at once are loaded when asked for.
import { Benches } from './benches/benches';
import { JobPage } from './job/job_page';
import { KeptPage } from './outbox/kept_page';
import { type Route, route } from './route';
import { FirstStart } from './session/first_start';
import { OwnSecrets } from './session/own_secrets';
import { session, sessionUnknown } from './session/session';
import { SignIn } from './session/sign_in';
import { Banner, Header, Trouble } from './shell';
import { t } from './text/text';
import { Announcements } from './widgets/announce';
import { Busy } from './widgets/busy';
import { Notice } from './widgets/form';
import { Later } from './widgets/later';

const releasePage = () => import('./release/release_page').then((m) => m.ReleasePage);
const setUpPage = () => import('./setup/set_up_page').then((m) => m.SetUpPage);
const returnsPage = () => import('./returns/returns_page').then((m) => m.ReturnsPage);
const shopPage = () => import('./shop/shop_page').then((m) => m.ShopPage);

function Screen({ at }: { at: Route }) {
  switch (at.page) {
    case 'benches':
      return <Benches />;
    case 'job':
      return <JobPage key={at.number} number={at.number} step={at.step} check={at.check} />;
    case 'release':
      return (
        <Later
          key={at.number}
          load={releasePage}
          props={{ number: at.number }}
          otherwise={<Trouble text={t('noAnswer')} />}
        />
      );
    case 'new':
      return <Later key="new" load={setUpPage} props={{}} otherwise={<Trouble text={t('noAnswer')} />} />;
    case 'shop':
      return (
        <Later
          key="shop"
          load={shopPage}
          props={{ part: at.part }}
          otherwise={<Trouble text={t('noAnswer')} />}
        />
      );
    case 'returns':
      return (
        <Later key="returns" load={returnsPage} props={{}} otherwise={<Trouble text={t('noAnswer')} />} />
      );
    case 'kept':
      return <KeptPage />;
    case 'me':
      return <OwnSecrets />;
    case 'unknown':
      return (
        <>
          <Header title={t('notHere')} />
          <Trouble text={t('nothingAt', { path: at.path })} />
        </>
      );
  }
}

export function App() {
  const now = session.value;
  const inside = now?.person != null;
  return (
    <>
      {!inside && (
        <>
          <Header title="Pumpwright" />
          <Banner />
          {now === null ? (
            <main id="main" class="narrow">
              <h1 class="unseen">{t('signIn')}</h1>
              {sessionUnknown.value ? <Notice kind="plain">{t('noAnswer')}</Notice> : <Busy />}
            </main>
          ) : now.first_start ? (
            <FirstStart />
          ) : (
            <SignIn />
          )}
        </>
      )}
      {inside && <Screen at={route.value} />}
      <Announcements />
    </>
  );
}
