// The page of a tablet beside the splicer: it has the bench and nothing else.
import { mount } from 'svelte';
import './look/tokens.css';
import './look/base.css';
import TabletPage from './rooms/bench/TabletPage.svelte';

const place = document.getElementById('page');
if (!place) throw new Error('tablet.html has no element named "page"');
mount(TabletPage, { target: place });
