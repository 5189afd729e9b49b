//! A disk without room, a real one: what the browser says of it is nothing that a script could play.

use crate::visit::visit_with;
use serde_json::json;
use std::fs;
use std::path::PathBuf;
use std::process::Command;
use std::time::Duration;

/// A small file system in memory, gone with the test.
struct Small(PathBuf);

impl Small {
    fn mount() -> Self {
        let place = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("small-{}", std::process::id()));
        fs::create_dir_all(&place).expect("a folder");
        let mut mount = Command::new("mount");
        mount.args(["-t", "tmpfs", "-o", "size=120m", "tmpfs"]).arg(&place);
        assert!(mount.status().is_ok_and(|status| status.success()), "only root may mount a file system");
        Self(place)
    }

    /// Fills it to the last byte.
    fn fill(&self) {
        let filler = self.0.join("filler");
        let mut size = 64 << 20;
        let mut file = fs::File::create(filler).expect("a file");
        while size > 0 {
            if std::io::Write::write_all(&mut file, &vec![1; size]).is_err() {
                size /= 2;
            }
        }
    }

    fn free(&self) {
        fs::remove_file(self.0.join("filler")).expect("the file that fills it");
    }
}

impl Drop for Small {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("-l").arg(&self.0).status();
        let _ = fs::remove_dir(&self.0);
    }
}

/// Types until the browser cannot write any more, and once there is room again.
#[test]
#[ignore = "mounts a small file system, which only root may: run it with -- --ignored"]
fn is_named_and_saving_goes_on_when_there_is_room_again() {
    let small = Small::mount();
    visit_with(Some(&small.0.join("profile")), json!({}), async |page| {
        page.opens("place").await;
        page.fills(&[("ro-name", "RO one")]).await;
        page.sees("kept-state", "Saved on this device at").await;
        small.fill();
        // letters that cannot be pressed together
        let long = "const letters = new Uint8Array(20000); crypto.getRandomValues(letters);
            return Array.from(letters, letter => String.fromCharCode(97 + letter % 26)).join('')";
        let mut is_named = false;
        for _ in 0..20 {
            let text = page.asks(long).await;
            let type_it = format!(
                "const field = document.getElementById('place-name');
                Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, {text});
                field.dispatchEvent(new InputEvent('input', {{ bubbles: true }}))"
            );
            page.asks(&type_it).await;
            tokio::time::sleep(Duration::from_secs(1)).await;
            is_named = page.reads("kept-state").await.contains("There is no space left");
            if is_named {
                break;
            }
        }
        assert!(is_named, "a full disk is called: {}", page.reads("kept-state").await);
        // and stays so named as long as it is full
        tokio::time::sleep(Duration::from_secs(7)).await;
        page.sees("kept-state", "There is no space left").await;
        small.free();
        page.types("place-name", "Ward 6").await;
        page.sees("kept-state", "Saved on this device at").await;
        page.opens_again().await;
        page.opens("place").await;
        page.waits_for(
            "what was typed",
            async || page.stands_in("place-name").await,
            |text| text == "Ward 6",
        )
        .await;
    });
}
