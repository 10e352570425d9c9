// Which sheet lies over the room.
import type { ScanFile } from './bring/bring_form.svelte';

export type OpenSheet =
  | { readonly kind: 'scan'; readonly files: readonly ScanFile[] }
  | { readonly kind: 'paper' }
  | { readonly kind: 'facts' }
  | { readonly kind: 'in hand' }
  | { readonly kind: 'reels' }
  | { readonly kind: 'log' }
  | { readonly kind: 'limits' }
  | { readonly kind: 'strip' }
  | { readonly kind: 'proof' }
  | { readonly kind: 'take out' };
