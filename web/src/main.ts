import { mount } from 'svelte';
import './look/tokens.css';
import './look/base.css';
import App from './App.svelte';

const place = document.getElementById('page');
if (!place) throw new Error('index.html has no element named "page"');
mount(App, { target: place });
