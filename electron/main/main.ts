/** Where Electron begins. */
import * as electron from "electron";
import { startApp } from "./app.ts";

startApp(electron, __dirname);
