/** The editor's menu on a drawing: what can be done with it, and no *Cut* or *Paste*. */
export const drawingMenu = JSON.stringify({ webviewSection: 'drawing', preventDefaultContextMenuItems: true });
