import base from './playwright.config';
const { webServer: _none, ...rest } = base;
export default rest;
