// Reads the tag of a pump with the tablet's camera.
import { useEffect, useRef, useState } from 'preact/hooks';
import { t } from '../text/text';
import { Dialog } from '../widgets/dialog';
import { Notice } from '../widgets/form';
import { makeDetector } from './camera_state';

const lookEveryMs = 200;

export function Camera({ onFound, onClose }: { onFound: (text: string) => void; onClose: () => void }) {
  const video = useRef<HTMLVideoElement>(null);
  const [refusedCamera, setRefusedCamera] = useState(false);
  useEffect(() => {
    let stream: MediaStream | null = null;
    let timer: ReturnType<typeof setTimeout> | null = null;
    let gone = false;
    const detector = makeDetector();
    const look = async () => {
      if (gone || !detector || !video.current) return;
      const codes = await detector.detect(video.current).catch(() => []);
      const first = codes[0];
      if (first && !gone) onFound(first.rawValue);
      else timer = setTimeout(look, lookEveryMs);
    };
    navigator.mediaDevices
      .getUserMedia({ video: { facingMode: 'environment' } })
      .then(async (got) => {
        stream = got;
        if (gone || !video.current) {
          for (const track of got.getTracks()) track.stop();
          return;
        }
        video.current.srcObject = got;
        await video.current.play();
        void look();
      })
      .catch(() => setRefusedCamera(true));
    return () => {
      gone = true;
      if (timer) clearTimeout(timer);
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
  }, []);
  return (
    <Dialog title={t('scanTag')} onClose={onClose}>
      {refusedCamera ? (
        <Notice kind="error">{t('cameraRefused')}</Notice>
      ) : (
        <video class="camera" ref={video} muted playsInline aria-label={t('cameraView')} />
      )}
    </Dialog>
  );
}
