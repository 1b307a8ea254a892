import { useEffect, useState } from "react";
import { createRoot } from "react-dom/client";

/** A page with nothing but a number, which a key or a script may raise: the floor of whatever is drawn by the same framework. */
function Empty() {
  const [count, setCount] = useState(0);
  useEffect(() => {
    const raise = () => setCount((before) => before + 1);
    window.addEventListener("keydown", raise);
    Object.assign(window, { raise });
    return () => window.removeEventListener("keydown", raise);
  }, []);
  return <output data-count={count}>{count}</output>;
}

createRoot(document.getElementById("root")!).render(<Empty />);
