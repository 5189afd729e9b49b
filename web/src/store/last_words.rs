//! What a window leaves behind when it is closed or loaded anew in the midst of typing. An ordinary saving looks before
//! it writes, and no browser waits for the answer then; this one only writes, beside everything else.
//!
//! | store | key | value |
//! | --- | --- | --- |
//! | `tapside-last-words-1` | window, record, revision that the window last saw (0: none), moment | the text |

use super::database::{Transaction, key, numbers, texts};
use super::{Head, Id, LAST_WORDS, Loaded, Store, Trouble, head_in, now, opened, parts};
use calc::documents::record::Record;
use wasm_bindgen::JsValue;

impl Store {
    /// Leaves a record behind, without waiting for anything. What this window left of it before is not needed any more.
    ///
    /// # Errors
    /// Where the browser refuses at once; a later refusal has nobody to hear it.
    pub fn leave(&self, id: &Id, seen: Option<u64>, record: &Record) -> Result<(), Trouble> {
        let change = self.database.change(&[LAST_WORDS])?;
        let seen = seen.unwrap_or_default() as f64;
        let mine = [self.window.text(), id.text()];
        change.delete_of(LAST_WORDS, &mine)?;
        let key = key(&mine, &[seen, now() as f64]);
        change.put(LAST_WORDS, &key, &record.text().into())?;
        Ok(change.commit()?)
    }

    /// Takes up what windows left behind: as the next revision where no other window saved since, else as a record of its
    /// own.
    /// Answers with the records that came of it.
    ///
    /// # Errors
    /// Where the store cannot be read or written.
    pub async fn take_up(&self) -> Result<Vec<Loaded>, Trouble> {
        let keys = self.database.look(&[LAST_WORDS])?.keys(LAST_WORDS).await?;
        let mut taken = Vec::new();
        for key in &keys {
            taken.extend(self.take_up_one(key).await?);
        }
        Ok(taken)
    }

    async fn take_up_one(&self, key: &JsValue) -> Result<Option<Loaded>, Trouble> {
        let (texts, numbers) = (texts(key), numbers(key));
        let ids: Vec<Id> = texts.iter().filter_map(|text| Id::read(text)).collect();
        let ([window, id], Some(seen)) = (ids.as_slice(), numbers.first()) else { return Ok(None) };
        let change = self.database.change(super::STORES)?;
        let Some(text) = change.value(LAST_WORDS, key).await?.and_then(|text| text.as_string()) else {
            return Ok(None);
        };
        // What is no record stays where it is.
        let Ok(record) = opened(text.clone()) else { return Ok(None) };
        change.delete(LAST_WORDS, key)?;
        if let Some(head) = head_in(&change, id).await?
            && parts::present(&change, &head).await.is_ok_and(|kept| kept.text() == text)
        {
            // The last saving arrived after all.
            change.done().await?;
            return Ok(None);
        }
        let mut head = self.next_head(&change, (window, *seen as u64), id, &record).await?;
        if let Err(trouble) = parts::put(&change, &mut head, &record, None) {
            change.abandon();
            return Err(trouble);
        }
        change.put(super::RECORDS, &head.id.text().into(), &head.text().into())?;
        change.done().await?;
        Ok(Some(Loaded { head, record }))
    }

    async fn next_head(
        &self,
        change: &Transaction,
        (window, seen): (&Id, u64),
        id: &Id,
        record: &Record,
    ) -> Result<Head, Trouble> {
        match head_in(change, id).await? {
            None => Ok(Head::new(id.clone(), record, &self.window)),
            Some(head) if head.continues(seen, window) && head.binned.is_none() => {
                parts::put_aside(change, &head).await?;
                Ok(head.next(record, true, &self.window))
            }
            Some(_) => Ok(Head::new(Id::draw().ok_or(Trouble::Absent)?, record, &self.window)),
        }
    }
}
