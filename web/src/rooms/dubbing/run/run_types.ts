// The documents of a run that is followed, under short names.
import type { components } from '$lib/api/schema';

type Schemas = components['schemas'];

export type Followed = Schemas['FollowedDocument'];
export type RunAsked = Schemas['RunAsked'];
export type RunSeen = Schemas['RunSeen'];
export type SeenAt = Schemas['SeenAt'];
export type Seen = Schemas['SeenWords'];
