import { mount } from 'svelte';
import './look/tokens.css';
import './look/base.css';
import App from './App.svelte';
import TabletPage from './rooms/bench/TabletPage.svelte';

const place = document.getElementById('page');
if (!place) throw new Error('index.html has no element named "page"');
// A tablet beside the splicer has the bench and nothing else.
mount(location.pathname === '/bench-tablet' ? TabletPage : App, { target: place });
