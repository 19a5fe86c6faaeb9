/** Why a measure matters in the foot: what lies there, and what an unusual value may do to it. Plain anatomy, no claim of cause. */
export const matters: Readonly<Record<string, string>> = {
  'palmar-angle':
    'A low or negative angle loads the deep flexor tendon, the navicular bone and the heels; a high one stands the bone on its tip, over the solar corium and the arteries that run round its margin. Schools differ on which is worse in the acute phase.',
  'capsular-rotation':
    'Bone and wall part where the lamellae between them have given way or the wall has been levered off; whether the tendon pulls or the wall is bent away is disputed. The gap fills with weak lamellar horn.',
  'founder-distance':
    'The lamellae hang the bone in the capsule. Where they give way all round, the bone sinks, and presses on the solar corium from above; this weighs more for the animal than rotation does.',
  'coronet-extensor':
    'The same sinking, measured from the hairline, which lies about 10 mm above the firm wall. The two are never compared.',
  'horn-lamellar-share':
    'A thicker layer in front of the bone is thicker horn, or lamellae that swell or have been drawn out. Measured against the bone itself it does not change with magnification.',
  'lamellar-share':
    'Swollen or stretched lamellae widen the zone between the inner edge of the horn and the bone before the bone moves.',
  'horn-lamellar.upper': 'Thicker above than usual speaks for swelling or for a bone that has dropped.',
  'horn-lamellar.middle': 'Thicker than usual speaks for swelling or for lamellae that have been drawn out.',
  'horn-lamellar.lower': 'Thicker below than above means that bone and wall part downwards.',
  'sole-depth.tip':
    'Under the tip lie the solar corium and the artery round the margin of the bone. A thin sole there bruises, lets the bone press on them, and may let it through.',
  'toe-heel-difference': 'Heels that run under carry the foot too far forward, and crush.',
  'coronet-angle':
    'A hairline that falls little from toe to heel often goes with high heels, and with a bone that stands steep.',
};
