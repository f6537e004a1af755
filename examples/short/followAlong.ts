import { followRoute, resumeFollowing } from 'datumline';
import { demoRide } from './demoRide';

// As an app on the ride does: each fix placed as it comes, what has settled kept, all of it saved when the app is sent to sleep.
const { route, recording } = demoRide('C');
let follower = followRoute(route);
const kept = [];
for (const [i, lon] of recording.lon.entries()) {
  if (i === 500) follower = resumeFollowing(route, JSON.parse(JSON.stringify(follower.save())));
  follower.push({ position: [lon, recording.lat[i]], time: recording.time?.[i] });
  kept.push(...follower.settled());
}
const last = [...kept, ...follower.end()].filter((place) => place.alongTrack !== undefined).at(-1);
console.log(`follow: ${kept.length} fixes placed as they came, ${last?.alongTrack?.toFixed(0)} m along at the end`);
