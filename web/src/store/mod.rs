//! Records kept on this device, in the database of the browser. Nothing here knows of the page's components;
//! `keeping` drives it.
//!
//! Stores, each under our name and a version, since on some browsers every local file shares one database:
//!
//! | store | key | value |
//! | --- | --- | --- |
//! | `tapside-records-1` | id of the record | its [`Head`] as JSON |
//! | `tapside-texts-1` | id, name of a part, the revision that wrote it | the text of that part |
//! | `tapside-states-1` | id, revision, moment | which parts the record had then: the last [`RING`] states |
//!
//! A saving writes the parts that changed, in one transaction, see `parts`. Under the id alone, and in a state, an older
//! program put the whole text: that is read, and the next saving puts parts in its place.
//!
//! A fourth holds last words, see `last_words`.
//!
//! A window writes only over the revision that it has seen. Where another window was quicker, what both did is merged: the
//! events of both are kept. Where both changed the same part of what has no date, nothing is written and the answer is
//! [`Trouble::Conflict`]. Whatever lies there and is not ours is reported, and left until a person has taken
//! it out as a file and asks for its removal.

mod database;
mod head;
mod last_words;
mod parts;
pub mod tabs;
mod trouble;

pub use head::{Head, Id, Moment, name, now};
pub use parts::Parts;
pub use trouble::Trouble;

use crate::text::tell;
use calc::documents::record::{Record, Refused};
use calc::engine::quantity::UnitSet;
use database::{Database, Transaction, key, numbers, texts};
use head::Aside;
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use wasm_bindgen::JsValue;
use web_sys::js_sys::JSON;

/// The name of the database.
pub const DATABASE: &str = "tapside";
/// How many earlier states of a record are kept.
pub const RING: usize = 20;

/// Of the database. A record has a version of its own.
const VERSION: u32 = 1;
const RECORDS: &str = "tapside-records-1";
const TEXTS: &str = "tapside-texts-1";
const STATES: &str = "tapside-states-1";
const LAST_WORDS: &str = "tapside-last-words-1";
const STORES: &[&str] = &[RECORDS, TEXTS, STATES, LAST_WORDS];

/// The records of this device.
#[derive(Debug)]
pub struct Store {
    database: Database,
    /// Names this window among others.
    window: Id,
    /// What this window shows of records that it saved or opened.
    shown: RefCell<BTreeMap<Id, Shown>>,
}

/// A record as this window has it.
#[derive(Debug, Clone)]
struct Shown {
    revision: u64,
    record: Record,
    /// Whether the store has at that revision what another window did besides.
    is_behind: bool,
}

/// A record as it was read back.
#[derive(Debug, Clone, PartialEq)]
pub struct Loaded {
    /// Its revision, which the next saving names, and the rest.
    pub head: Head,
    /// The record itself.
    pub record: Record,
}

/// Everything that lies in the store.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Listed {
    /// The records, the latest first.
    pub records: Vec<Head>,
    /// Those in the bin, the latest first.
    pub binned: Vec<Head>,
    /// The keys of what is no record of ours, or damaged.
    pub foreign: Vec<String>,
}

/// An earlier state of a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct State {
    /// Its revision.
    pub revision: u64,
    /// When it was saved.
    pub saved: Moment,
}

impl Store {
    /// Opens the store, which is made where there is none.
    ///
    /// # Errors
    /// Where the browser has none to offer, or something else lies in its place.
    pub async fn open(database: &str) -> Result<Self, Trouble> {
        let window = Id::draw().ok_or(Trouble::Absent)?;
        let database = Database::open(database, VERSION, STORES).await?;
        let store = Self { database, window, shown: RefCell::default() };
        // Another program's database of this name would lack our stores.
        store.database.look(STORES)?.done().await?;
        Ok(store)
    }

    /// Opens it anew, as the same window. A browser whose disk was full closes the store, and never opens it by itself when
    /// there is room again.
    ///
    /// # Errors
    /// As when it was opened first.
    pub async fn again(&self, database: &str) -> Result<Self, Trouble> {
        let database = Database::open(database, VERSION, STORES).await?;
        let store = Self { database, window: self.window.clone(), shown: self.shown.clone() };
        store.database.look(STORES)?.done().await?;
        Ok(store)
    }

    /// Lets go of the store.
    pub fn close(&self) {
        self.database.close();
    }

    /// What lies there.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub async fn list(&self) -> Result<Listed, Trouble> {
        let look = self.database.look(&[RECORDS, TEXTS])?;
        let keys = look.keys(RECORDS).await?;
        let values = look.values(RECORDS).await?;
        let mut texts: BTreeSet<String> = look.keys(TEXTS).await?.iter().map(owner).collect();
        let mut listed = Listed::default();
        for (key, value) in keys.iter().zip(&values) {
            let has_text = texts.remove(&shown_key(key));
            match read_head(key, value).filter(|_| has_text) {
                Some(head) if head.binned.is_some() => listed.binned.push(head),
                Some(head) => listed.records.push(head),
                None => listed.foreign.push(shown_key(key)),
            }
        }
        listed.foreign.extend(texts);
        listed.records.sort_by_key(|head| std::cmp::Reverse(head.saved));
        listed.binned.sort_by_key(|head| std::cmp::Reverse(head.binned));
        Ok(listed)
    }

    /// The record that was open last.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub async fn last(&self) -> Result<Option<Id>, Trouble> {
        let records = self.list().await?.records;
        Ok(records.into_iter().max_by_key(|head| head.opened.max(head.saved)).map(|head| head.id))
    }

    /// What is kept beside a record.
    ///
    /// # Errors
    /// Where it is not there any more.
    pub async fn head(&self, id: &Id) -> Result<Head, Trouble> {
        head_in(&self.database.look(&[RECORDS])?, id).await?.ok_or(Trouble::Gone)
    }

    /// Opens a record, and puts aside how it stands.
    ///
    /// # Errors
    /// Where it is not there any more, or is damaged.
    pub async fn load(&self, id: &Id) -> Result<Loaded, Trouble> {
        let look = self.database.look(&[RECORDS, TEXTS])?;
        let head = head_in(&look, id).await?.ok_or(Trouble::Gone)?;
        let record = parts::present(&look, &head).await?;
        // Where this cannot be written the record is shown all the same; the first saving will tell why.
        let head = self.mark_opened(&head).await.unwrap_or(head);
        Ok(Loaded { head, record })
    }

    /// What lies under a key as it lies there, for the person to take out as a file; what is no text, in JSON.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub async fn raw(&self, shown: &str) -> Result<Option<String>, Trouble> {
        let look = self.database.look(&[RECORDS, TEXTS])?;
        for store in [TEXTS, RECORDS] {
            let Some(key) = look.keys(store).await?.into_iter().find(|key| shown_key(key) == shown) else {
                continue;
            };
            if let Some(value) = look.value(store, &key).await? {
                let other = || JSON::stringify(&value).ok().and_then(|text| text.as_string());
                return Ok(value.as_string().or_else(other).or_else(|| Some(format!("{value:?}"))));
            }
        }
        let lies = parts::as_they_lie(&look, shown).await?;
        let texts: Vec<String> = lies.iter().filter_map(JsValue::as_string).collect();
        Ok((!lies.is_empty()).then(|| texts.join("\n")))
    }

    /// Whether the store has more of a record than this window shows: what another window saved.
    pub fn has_more(&self, id: &Id) -> bool {
        self.shown.borrow().get(id).is_some_and(|shown| shown.is_behind)
    }

    /// This window shows a record as it was opened, and what is typed goes on from there.
    pub fn shows(&self, loaded: &Loaded) {
        let Loaded { head, record } = loaded;
        let shown = Shown { revision: head.revision, record: record.clone(), is_behind: false };
        self.shown.borrow_mut().insert(head.id.clone(), shown);
    }

    /// Forgets what lies under a key, whatever it is, for good.
    ///
    /// # Errors
    /// Where nothing can be written.
    pub async fn forget(&self, shown: &str) -> Result<(), Trouble> {
        let change = self.database.change(&[RECORDS, TEXTS])?;
        for store in [TEXTS, RECORDS] {
            for key in change.keys(store).await?.iter().filter(|key| shown_key(key) == shown) {
                change.delete(store, key)?;
            }
        }
        change.delete_of(TEXTS, &[shown])?;
        change.done().await?;
        Ok(())
    }

    /// Saves a record; the answer comes when the disk has it. `seen` is the revision that this window last saw, `None`
    /// for a new record. Where another window saved meanwhile and both can be merged, the answer names a revision that does
    /// not follow `seen`: the store has more than this window then, until it opens the record anew.
    ///
    /// # Errors
    /// Where another window saved it meanwhile, or nothing can be written. What was kept stays as it was.
    pub async fn save(&self, id: &Id, seen: Option<u64>, record: &Record) -> Result<Head, Trouble> {
        match self.write(id, seen, record, Aside::OnceAMinute).await {
            // Earlier states must not keep the present one out. What the second try says may only follow from the full disk,
            // for which a browser may have closed the store.
            Err(Trouble::Full) => match self.write(id, seen, record, Aside::Never).await {
                Err(Trouble::Closed | Trouble::Other(_)) => Err(Trouble::Full),
                other => other,
            },
            other => other,
        }
    }

    /// Puts a record in the bin, or takes it out again.
    ///
    /// # Errors
    /// Where another window saved it meanwhile, or nothing can be written.
    pub async fn bin(&self, id: &Id, seen: u64, away: bool) -> Result<Head, Trouble> {
        let change = self.database.change(&[RECORDS])?;
        let head = match head_in(&change, id).await? {
            Some(head) if head.revision == seen => head,
            other => return Err(undone(change, other)),
        };
        let by = Some(self.window.clone());
        let head = Head { revision: seen + 1, binned: away.then(now), by, ..head };
        change.put(RECORDS, &id.text().into(), &head.text().into())?;
        change.done().await?;
        Ok(head)
    }

    /// Forgets what is in the bin, with its earlier states; answers with how many records that were.
    ///
    /// # Errors
    /// Where nothing can be written.
    pub async fn empty_bin(&self) -> Result<usize, Trouble> {
        let binned = self.list().await?.binned;
        let change = self.database.change(STORES)?;
        let mut count = 0;
        for head in binned {
            // Another window may have taken it out since it was listed.
            if head_in(&change, &head.id).await?.is_some_and(|now| now.binned.is_some()) {
                let key = head.id.text();
                change.delete(RECORDS, &key.into())?;
                change.delete(TEXTS, &key.into())?;
                change.delete_of(TEXTS, &[key])?;
                change.delete_of(STATES, &[key])?;
                count += 1;
            }
        }
        change.done().await?;
        Ok(count)
    }

    /// The earlier states of a record, the latest first.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub async fn history(&self, id: &Id) -> Result<Vec<State>, Trouble> {
        let keys = self.database.look(&[STATES])?.keys_of(STATES, &[id.text()]).await?;
        Ok(keys.iter().rev().filter_map(read_state).collect())
    }

    /// An earlier state as it stood.
    ///
    /// # Errors
    /// Where it is not there any more, or is damaged.
    pub async fn state(&self, id: &Id, state: State) -> Result<Record, Trouble> {
        parts::earlier(&self.database.look(&[STATES, TEXTS])?, id, state).await
    }

    /// Makes an earlier state the present one; what stood there till now is put aside.
    ///
    /// # Errors
    /// Where either is not there any more, another window saved meanwhile, or nothing can be written.
    pub async fn restore(&self, id: &Id, seen: u64, state: State) -> Result<Loaded, Trouble> {
        let record = self.state(id, state).await?;
        let head = self.write(id, Some(seen), &record, Aside::Now).await?;
        Ok(Loaded { head, record })
    }

    async fn write(
        &self,
        id: &Id,
        seen: Option<u64>,
        record: &Record,
        aside: Aside,
    ) -> Result<Head, Trouble> {
        let shown = self.shown.borrow().get(id).cloned();
        let change = self.database.change(STORES)?;
        let (found, is_behind) = (head_in(&change, id).await?, shown.as_ref().is_some_and(|s| s.is_behind));
        let seen_here = |head: &Head| Some(head.revision) == seen && !is_behind;
        let mut merged = None;
        let mut head = match (found, &shown) {
            (None, _) if seen.is_none() => Head::new(id.clone(), record, &self.window),
            (Some(head), _) if seen_here(&head) => head,
            (Some(head), Some(shown))
                if head.binned.is_none() && (is_behind || Some(shown.revision) == seen) =>
            {
                merged = merged_with(&change, &head, record, &shown.record).await?;
                if merged.is_none() {
                    return Err(undone(change, Some(head)));
                }
                head
            }
            (other, _) => return Err(undone(change, other)),
        };
        if seen.is_some() {
            let is_put_aside = head.puts_aside(aside, now());
            if is_put_aside {
                parts::put_aside(&change, &head).await?;
            }
            head = head.next(merged.as_ref().unwrap_or(record), is_put_aside, &self.window);
        }
        // After a merging all parts are new. Where an older program saved last, none lies there.
        let is_in_parts = merged.is_none() && parts::whole(&change, id).await?.is_none();
        let before = shown.filter(|shown| is_in_parts && Some(shown.revision) == seen);
        let before = before.as_ref().map(|shown| &shown.record);
        if let Err(trouble) = parts::put(&change, &mut head, merged.as_ref().unwrap_or(record), before) {
            change.abandon();
            return Err(trouble);
        }
        change.put(RECORDS, &id.text().into(), &head.text().into())?;
        // Of a window that was thought to be closed and came back.
        change.delete_of(LAST_WORDS, &[self.window.text(), id.text()])?;
        change.done().await?;
        let shown = Shown { revision: head.revision, record: record.clone(), is_behind: merged.is_some() };
        self.shown.borrow_mut().insert(id.clone(), shown);
        Ok(head)
    }

    async fn mark_opened(&self, seen: &Head) -> Result<Head, Trouble> {
        let change = self.database.change(STORES)?;
        match head_in(&change, &seen.id).await? {
            Some(head) if head == *seen => parts::put_aside(&change, &head).await?,
            other => return Err(undone(change, other)),
        }
        let now = now();
        let head = Head { opened: now, taken: now, aside: seen.revision, ..seen.clone() };
        change.put(RECORDS, &head.id.text().into(), &head.text().into())?;
        change.done().await?;
        Ok(head)
    }
}

/// What stands of a record, if anything does.
async fn head_in(transaction: &Transaction, id: &Id) -> Result<Option<Head>, Trouble> {
    let key = id.text().into();
    match transaction.value(RECORDS, &key).await? {
        Some(value) => read_head(&key, &value).map(Some).ok_or(Trouble::Foreign),
        None => Ok(None),
    }
}

/// What this window has with what another one saved, which goes on from the same state; none where both changed the same part
/// of what has no date.
async fn merged_with(
    change: &Transaction,
    theirs: &Head,
    mine: &Record,
    base: &Record,
) -> Result<Option<Record>, Trouble> {
    let Ok(theirs) = parts::present(change, theirs).await else { return Ok(None) };
    let merged = mine.merge(&theirs, Some(base)).ok();
    Ok(merged
        .filter(|merged| merged.conflicts.is_empty() && merged.both.is_empty())
        .map(|merged| merged.record))
}

/// Undoes a change that would overwrite what this window has not seen.
fn undone(change: Transaction, found: Option<Head>) -> Trouble {
    change.abandon();
    found.map_or(Trouble::Gone, |head| Trouble::Conflict(Box::new(head)))
}

fn opened(text: String) -> Result<Record, Trouble> {
    Record::open(&text).map_err(|why| refused(&why, text))
}

fn refused(why: &Refused, text: String) -> Trouble {
    Trouble::Damaged { why: tell(&why.sentence(), UnitSet::Metric), text }
}

fn read_head(key: &JsValue, value: &JsValue) -> Option<Head> {
    Head::read(&key.as_string()?, &value.as_string()?)
}

fn state_key(id: &Id, state: State) -> JsValue {
    key(&[id.text()], &[state.revision as f64, state.saved as f64])
}

fn read_state(key: &JsValue) -> Option<State> {
    match numbers(key)[..] {
        [revision, saved] => Some(State { revision: revision as u64, saved: saved as Moment }),
        _ => None,
    }
}

/// The record to which an entry belongs, as it is shown.
fn owner(key: &JsValue) -> String {
    let id = texts(key).into_iter().next().filter(|id| Id::read(id).is_some());
    id.unwrap_or_else(|| shown_key(key))
}

/// A key is anything that the browser takes for one.
fn shown_key(key: &JsValue) -> String {
    key.as_string().unwrap_or_else(|| format!("{key:?}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_could_be_opened_can_be_opened_again() {
        let reading = r#"{"date":"2026-11-12","product-flow":{"typed":"0.86","value":0.86,"unit":"L/min"}}"#;
        let readings = vec![reading; 1000].join(",");
        let file = format!(
            r#"{{"format":"tapside-record","version":1,"ro":{{}},"places":[],"readings":[{readings}]}}"#
        );
        let record = Record::open(&file).unwrap();
        let kept = record.text();
        // of an older version it may grow, for which a kept record has room
        assert!(kept.len() <= 2 * file.len(), "{} became {}", file.len(), kept.len());
        assert_eq!(Record::open(&kept).unwrap().text(), kept);
    }
}
