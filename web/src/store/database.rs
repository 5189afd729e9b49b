//! The browser's database (IndexedDB), as much of it as is needed here: values under keys in named stores, and
//! transactions that reach the disk.
//!
//! Within a transaction nothing but its own requests may be waited for: the browser ends it as soon as it has none.

use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{Array, Function, Object, Promise, Reflect};
use web_sys::{DomException, Event, IdbDatabase, IdbKeyRange, IdbOpenDbRequest, IdbRequest, IdbTransaction};

#[wasm_bindgen]
extern "C" {
    // What `web_sys` offers to unstable builds alone, though every browser has it: options, and the explicit end.
    #[wasm_bindgen(extends = Object)]
    type WithOptions;
    #[wasm_bindgen(catch, method)]
    fn transaction(
        this: &WithOptions,
        stores: &JsValue,
        mode: &str,
        options: &JsValue,
    ) -> Result<IdbTransaction, JsValue>;

    #[wasm_bindgen(extends = Object)]
    type WithCommit;
    #[wasm_bindgen(catch, method)]
    fn commit(this: &WithCommit) -> Result<(), JsValue>;
}

/// Why the browser refused: the name of its error, which is standardized, and its words, which are not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// `QuotaExceededError`, `VersionError`, …
    pub name: String,
    /// For whoever mends the program.
    pub words: String,
}

impl Refusal {
    fn named(name: &str) -> Self {
        Self { name: name.to_owned(), words: String::new() }
    }
}

impl From<DomException> for Refusal {
    fn from(error: DomException) -> Self {
        Self { name: error.name(), words: error.message() }
    }
}

impl From<JsValue> for Refusal {
    fn from(error: JsValue) -> Self {
        match error.dyn_into::<DomException>() {
            Ok(error) => error.into(),
            Err(other) => Self { name: "Error".to_owned(), words: format!("{other:?}") },
        }
    }
}

/// The browser has no database to offer.
pub const ABSENT: &str = "Absent";
/// The settings of the browser, or of who runs the device, forbid it.
pub const FORBIDDEN: &str = "Forbidden";
/// Another window holds an older version of the database open.
pub const BLOCKED: &str = "Blocked";

/// An open database.
#[derive(Debug)]
pub struct Database(IdbDatabase);

impl Database {
    /// Opens it, with new stores of these names where there was none.
    pub async fn open(name: &str, version: u32, stores: &'static [&'static str]) -> Result<Self, Refusal> {
        let window = web_sys::window().ok_or_else(|| Refusal::named(ABSENT))?;
        let factory = match window.indexed_db() {
            Ok(Some(factory)) => factory,
            Ok(None) => return Err(Refusal::named(ABSENT)),
            // a rule that forbids the store throws here
            Err(error) => return Err(Refusal { name: FORBIDDEN.to_owned(), ..error.into() }),
        };
        let request = factory.open_with_u32(name, version)?;
        let make = {
            let request = request.clone();
            Closure::<dyn Fn()>::new(move || {
                // A failure here fails the opening, which is where it is heard.
                if let Ok(database) = request.result() {
                    let database: IdbDatabase = database.unchecked_into();
                    for store in stores {
                        let _ = database.create_object_store(store);
                    }
                }
            })
        };
        request.set_onupgradeneeded(Some(make.as_ref().unchecked_ref()));
        let database: IdbDatabase = match opened(&request).await {
            Ok(database) => database.unchecked_into(),
            // Settings that forbid every store are named differently by each browser, and thrown for the other stores.
            Err(refusal) if window.local_storage().is_err() => {
                return Err(Refusal { name: FORBIDDEN.to_owned(), ..refusal });
            }
            Err(refusal) => return Err(refusal),
        };
        // A newer program wants to change the database: it must not wait for this window.
        let closing = {
            let database = database.clone();
            Closure::<dyn Fn()>::new(move || database.close())
        };
        database.set_onversionchange(Some(closing.into_js_value().unchecked_ref()));
        Ok(Self(database))
    }

    /// A transaction that changes these stores, and is complete when the disk has it.
    pub fn change(&self, stores: &[&str]) -> Result<Transaction, Refusal> {
        self.begin(stores, "readwrite")
    }

    /// A transaction that only looks.
    pub fn look(&self, stores: &[&str]) -> Result<Transaction, Refusal> {
        self.begin(stores, "readonly")
    }

    /// Lets go of it.
    pub fn close(&self) {
        self.0.close();
    }

    fn begin(&self, stores: &[&str], mode: &str) -> Result<Transaction, Refusal> {
        let stores: Array = stores.iter().map(|store| JsValue::from_str(store)).collect();
        let options = Object::new();
        Reflect::set(&options, &"durability".into(), &"strict".into())?;
        let database: &WithOptions = self.0.unchecked_ref();
        let transaction = database.transaction(&stores, mode, &options)?;
        let end = settled(|done| {
            transaction.set_oncomplete(Some(done));
            transaction.set_onabort(Some(done));
        });
        Ok(Transaction { transaction, end })
    }
}

/// A transaction. Dropped before [`Transaction::done`], it still takes place.
pub struct Transaction {
    transaction: IdbTransaction,
    end: Promise,
}

impl Transaction {
    /// What stands under a key.
    pub async fn value(&self, store: &str, key: &JsValue) -> Result<Option<JsValue>, Refusal> {
        let value = answered(&self.transaction.object_store(store)?.get(key)?).await?;
        Ok((!value.is_undefined()).then_some(value))
    }

    /// The keys of a store, in their order.
    pub async fn keys(&self, store: &str) -> Result<Vec<JsValue>, Refusal> {
        Ok(Array::from(&answered(&self.transaction.object_store(store)?.get_all_keys()?).await?).to_vec())
    }

    /// The values of a store, in the order of their keys.
    pub async fn values(&self, store: &str) -> Result<Vec<JsValue>, Refusal> {
        Ok(Array::from(&answered(&self.transaction.object_store(store)?.get_all()?).await?).to_vec())
    }

    /// Those keys that are lists beginning with these texts, in their order.
    pub async fn keys_of(&self, store: &str, first: &[&str]) -> Result<Vec<JsValue>, Refusal> {
        let store = self.transaction.object_store(store)?;
        let keys = answered(&store.get_all_keys_with_key(&beginning_with(first)?)?).await?;
        Ok(Array::from(&keys).to_vec())
    }

    /// Puts a value under a key. Whether it arrived is told by [`Transaction::done`].
    pub fn put(&self, store: &str, key: &JsValue, value: &JsValue) -> Result<(), Refusal> {
        self.transaction.object_store(store)?.put_with_key(value, key)?;
        Ok(())
    }

    /// Takes out what stands under a key.
    pub fn delete(&self, store: &str, key: &JsValue) -> Result<(), Refusal> {
        self.transaction.object_store(store)?.delete(key)?;
        Ok(())
    }

    /// Takes out what stands under those keys that are lists beginning with these texts.
    pub fn delete_of(&self, store: &str, first: &[&str]) -> Result<(), Refusal> {
        self.transaction.object_store(store)?.delete(&beginning_with(first)?)?;
        Ok(())
    }

    /// Undoes it.
    pub fn abandon(self) {
        // Refused where it has ended already: then nothing is left to undo.
        let _ = self.transaction.abort();
    }

    /// Waits for no answer any more, so that it takes place even if the page goes away now.
    pub fn commit(self) -> Result<(), Refusal> {
        let transaction: &WithCommit = self.transaction.unchecked_ref();
        Ok(transaction.commit()?)
    }

    /// Waits until the disk has it.
    pub async fn done(self) -> Result<(), Refusal> {
        let event: Event = JsFuture::from(self.end).await?.unchecked_into();
        if event.type_() == "complete" {
            return Ok(());
        }
        Err(self.transaction.error().map_or_else(|| Refusal::named("AbortError"), Refusal::from))
    }
}

/// A list as a key: texts, then numbers.
pub fn key(texts: &[&str], numbers: &[f64]) -> JsValue {
    let texts = texts.iter().map(|text| JsValue::from_str(text));
    texts.chain(numbers.iter().map(|number| JsValue::from_f64(*number))).collect::<Array>().into()
}

/// The texts of such a key.
pub fn texts(key: &JsValue) -> Vec<String> {
    parts(key).iter().filter_map(JsValue::as_string).collect()
}

/// The numbers of such a key.
pub fn numbers(key: &JsValue) -> Vec<f64> {
    parts(key).iter().filter_map(JsValue::as_f64).collect()
}

/// Whatever the key is: others may have put theirs here.
fn parts(key: &JsValue) -> Vec<JsValue> {
    if Array::is_array(key) { Array::from(key).to_vec() } else { Vec::new() }
}

/// In the order of keys a list is after every number and text, so this holds every list that begins so.
fn beginning_with(first: &[&str]) -> Result<JsValue, Refusal> {
    let (from, to) = (Array::from(&key(first, &[])), Array::from(&key(first, &[])));
    to.push(&Array::new());
    Ok(IdbKeyRange::bound(&from, &to)?.into())
}

/// A promise that is kept by whatever happens first. It is never refused: a refusal that nobody waits for would stop
/// the page.
fn settled(listen: impl FnOnce(&Function)) -> Promise {
    let mut listen = Some(listen);
    Promise::new(&mut |done, _| {
        if let Some(listen) = listen.take() {
            listen(&done);
        }
    })
}

async fn answered(request: &IdbRequest) -> Result<JsValue, Refusal> {
    let end = settled(|done| {
        request.set_onsuccess(Some(done));
        request.set_onerror(Some(done));
    });
    JsFuture::from(end).await?;
    match request.error()? {
        Some(error) => Err(error.into()),
        None => Ok(request.result()?),
    }
}

async fn opened(request: &IdbOpenDbRequest) -> Result<JsValue, Refusal> {
    let end = settled(|done| {
        request.set_onsuccess(Some(done));
        request.set_onerror(Some(done));
        request.set_onblocked(Some(done));
    });
    let event: Event = JsFuture::from(end).await?.unchecked_into();
    match event.type_().as_str() {
        "blocked" => Err(Refusal::named(BLOCKED)),
        "error" => Err(request.error()?.map_or_else(|| Refusal::named(ABSENT), Refusal::from)),
        _ => Ok(request.result()?),
    }
}
