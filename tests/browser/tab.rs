//! A tab with a page in it.

use super::chromium::{Chromium, chromium};
use serde_json::{Value, json};
use std::path::Path;
use std::time::{Duration, Instant};

/// A tab in a profile of its own, closed when it is dropped.
pub(super) struct Tab {
    browser: &'static Chromium,
    session: String,
    target: String,
    profile: String,
}

impl Tab {
    /// An empty tab; `None` where there is no browser.
    pub(super) fn new() -> Option<Self> {
        let browser = chromium()?;
        let ask = |method: &str, parameters: Value| {
            browser
                .ask("", method, &parameters)
                .unwrap_or_else(|error| panic!("{error}"))
        };
        let text = |value: &Value| value.as_str().expect("the protocol says a text").to_owned();
        let profile = text(&ask("Target.createBrowserContext", json!({}))["browserContextId"]);
        let target = json!({ "url": "about:blank", "browserContextId": profile });
        let target = text(&ask("Target.createTarget", target)["targetId"]);
        let attach = json!({ "targetId": target, "flatten": true });
        let session = text(&ask("Target.attachToTarget", attach)["sessionId"]);
        let tab = Self {
            browser,
            session,
            target,
            profile,
        };
        for domain in ["Page", "Runtime", "Log", "Network", "DOM"] {
            tab.ask(&format!("{domain}.enable"), &json!({}));
        }
        tab.ask(
            "Emulation.setFocusEmulationEnabled",
            &json!({ "enabled": true }),
        );
        tab.look(820, "light");
        Some(tab)
    }

    pub(super) fn ask(&self, method: &str, parameters: &Value) -> Value {
        self.try_to(method, parameters)
            .unwrap_or_else(|error| panic!("{error}"))
    }

    pub(super) fn try_to(&self, method: &str, parameters: &Value) -> Result<Value, String> {
        self.browser.ask(&self.session, method, parameters)
    }

    /// Opens a file and waits until it stands.
    pub(super) fn open(&self, file: &Path) {
        let url = format!("file://{}", file.display());
        let opened = self.ask("Page.navigate", &json!({ "url": url }));
        assert!(opened.get("errorText").is_none(), "{opened}");
        self.wait_for(&format!(
            "location.href === {} && document.readyState === 'complete'",
            json!(url)
        ));
    }

    /// Loads the page anew.
    pub(super) fn reload(&self) {
        self.run("window.isOld = true");
        self.ask("Page.reload", &json!({}));
        self.wait_for("!window.isOld && document.readyState === 'complete'");
    }

    /// The width of the window in pixels, and light or dark.
    pub(super) fn look(&self, width: u32, scheme: &str) {
        let size =
            json!({ "width": width, "height": 900, "deviceScaleFactor": 1, "mobile": false });
        self.ask("Emulation.setDeviceMetricsOverride", &size);
        let feature = json!({ "name": "prefers-color-scheme", "value": scheme });
        self.ask(
            "Emulation.setEmulatedMedia",
            &json!({ "features": [feature] }),
        );
    }

    /// Runs a script in the page, waits for its promise if it is one, and gives what comes out.
    pub(super) fn run(&self, script: &str) -> Value {
        self.try_run(script)
            .unwrap_or_else(|error| panic!("{error}\nin: {script}"))
    }

    fn try_run(&self, script: &str) -> Result<Value, String> {
        let parameters = json!({
            "expression": script, "awaitPromise": true, "returnByValue": true, "userGesture": true,
        });
        let done = self.try_to("Runtime.evaluate", &parameters)?;
        match done.get("exceptionDetails") {
            Some(error) => Err(error.to_string()),
            None => Ok(done["result"]["value"].clone()),
        }
    }

    pub(super) fn text(&self, script: &str) -> String {
        let value = self.run(script);
        value
            .as_str()
            .unwrap_or_else(|| panic!("{script} gives {value}"))
            .to_owned()
    }

    /// What an element says.
    pub(super) fn said(&self, id: &str) -> String {
        self.text(&format!("document.getElementById('{id}').textContent"))
    }

    #[track_caller]
    pub(super) fn assert_says(&self, id: &str, words: &str) {
        let said = self.said(id);
        assert!(said.contains(words), "{words}: {said}");
    }

    #[track_caller]
    pub(super) fn assert_begins(&self, id: &str, words: &str) {
        let said = self.said(id);
        assert!(said.starts_with(words), "{words}: {said}");
    }

    /// Waits until a condition holds in the page. While a page changes, a question to the old one is lost and asked anew.
    pub(super) fn wait_for(&self, condition: &str) {
        let mut last = String::new();
        let holds = || match self.try_run(&format!("Boolean({condition})")) {
            Ok(holds) => holds == json!(true),
            Err(error) => {
                last = error;
                false
            }
        };
        assert!(wait(holds), "{condition} does not come about; {last}");
    }

    /// Waits until a download is there; the browser gives it its name when it is whole.
    pub(super) fn wait_for_file(file: &Path) {
        assert!(wait(|| file.exists()), "{} was not saved", file.display());
    }

    /// Presses a key as a keyboard does.
    pub(super) fn press(&self, key: &str, code: u32, text: &str) {
        for kind in ["keyDown", "keyUp"] {
            let mut event =
                json!({ "type": kind, "key": key, "code": key, "windowsVirtualKeyCode": code });
            if kind == "keyDown" {
                event["text"] = text.into();
            }
            self.ask("Input.dispatchKeyEvent", &event);
        }
    }

    /// Clicks in the middle of an element, as a mouse does: what covers it gets the click.
    pub(super) fn click(&self, selector: &str) {
        let place = self.run(&format!(
            "(() => {{
                const element = document.querySelector({});
                element.scrollIntoView({{ block: 'center', behavior: 'instant' }});
                const box = element.getBoundingClientRect();
                return [box.x + box.width / 2, box.y + box.height / 2];
            }})()",
            json!(selector)
        ));
        for kind in ["mousePressed", "mouseReleased"] {
            let event = json!({
                "type": kind, "x": place[0], "y": place[1], "button": "left", "clickCount": 1,
            });
            self.ask("Input.dispatchMouseEvent", &event);
        }
    }

    /// Gives a file to a file field.
    pub(super) fn choose_file(&self, selector: &str, file: &Path) {
        let find = json!({ "expression": format!("document.querySelector({})", json!(selector)) });
        let object = &self.ask("Runtime.evaluate", &find)["result"]["objectId"];
        let files = json!({ "files": [file], "objectId": object });
        self.ask("DOM.setFileInputFiles", &files);
    }

    /// Lets downloads go into a folder.
    pub(super) fn download_into(&self, folder: &Path) {
        let behaviour = json!({
            "behavior": "allow", "browserContextId": self.profile, "downloadPath": folder, "eventsEnabled": true,
        });
        self.browser
            .ask("", "Browser.setDownloadBehavior", &behaviour)
            .unwrap_or_else(|error| panic!("{error}"));
    }

    /// Everything the page complained about or asked for, besides the files that it was opened from.
    pub(super) fn complaints(&self) -> Vec<String> {
        // An answer comes behind every event before it.
        self.run("1");
        let events = self.browser.events(&self.session);
        let complaint = |event: &Value| {
            let parameters = &event["params"];
            match event["method"].as_str()? {
                "Runtime.exceptionThrown" => Some(parameters.to_string()),
                "Runtime.consoleAPICalled" => Some(parameters["args"].to_string()),
                "Log.entryAdded" => Some(parameters["entry"]["text"].to_string()),
                "Network.requestWillBeSent" => {
                    let url = parameters["request"]["url"].as_str()?;
                    let is_the_page =
                        parameters["type"] == "Document" && url.starts_with("file://");
                    // What is saved comes out of the page itself, and the icons of its fields out of the browser.
                    let is_own =
                        url.starts_with("blob:null/") || url.starts_with("data:image/svg+xml;");
                    (!is_the_page && !is_own).then(|| format!("asked for {url}"))
                }
                "Page.javascriptDialogOpening" => Some("opened a dialog".to_owned()),
                _ => None,
            }
        };
        events.iter().filter_map(complaint).collect()
    }

    /// The script of the accessibility checker.
    pub(super) fn axe(&self) -> &'static str {
        &self.browser.axe
    }
}

/// Looks again and again until something holds, for as long as the slowest machine may need.
fn wait(mut holds: impl FnMut() -> bool) -> bool {
    let end = Instant::now() + Duration::from_secs(30);
    loop {
        if holds() {
            return true;
        }
        if Instant::now() > end {
            return false;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
}

impl Drop for Tab {
    fn drop(&mut self) {
        let target = json!({ "targetId": self.target });
        let _ = self.browser.ask("", "Target.closeTarget", &target);
        let profile = json!({ "browserContextId": self.profile });
        let _ = self
            .browser
            .ask("", "Target.disposeBrowserContext", &profile);
    }
}
