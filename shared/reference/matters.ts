import { spoken } from '../language/rows.ts';
import type { MeasureName } from '../measures/names.ts';
/** Why a measure matters in the foot: what lies there, and what an unusual value may do to it. Plain anatomy, no claim of cause. */
export const matters: Readonly<Partial<Record<MeasureName, string>>> = spoken({
  'palmar-angle':
    'A low or negative angle loads the deep flexor tendon, the navicular bone and the heels; a high one stands the bone on its tip, over the solar corium and the arteries that run round its margin. Schools differ on which is worse in the acute phase.',
  'capsular-rotation':
    'Bone and wall part where the lamellae between them have given way or the wall has been levered off; whether the tendon pulls or the wall is bent away is disputed. The gap fills with weak lamellar horn.',
  'sole-depth.tip':
    'Under the tip lie the solar corium and the artery round the margin of the bone. A thin sole there bruises, lets the bone press on them, and may let it through.',
  'coronet-angle':
    'A hairline that falls little from toe to heel often goes with high heels, and with a bone that stands steep.',
});
