import { createRoot } from "react-dom/client";
import "@xyflow/react/dist/base.css";
import "./window/tokens.css";
import "./window/window.css";
import { Frame } from "./window/Frame.tsx";
import { startEditor } from "./window/start-editor.ts";

const place = document.getElementById("window");
if (place !== null) createRoot(place).render(<Frame surroundings={startEditor()} />);
