import { mount } from 'svelte';
import './look/tokens.css';
import './look/base.css';
import Stories from './Stories.svelte';

const place = document.getElementById('page');
if (!place) throw new Error('stories.html has no element named "page"');
mount(Stories, { target: place });
