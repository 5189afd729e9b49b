//! Section Place: what is entered of a place and of the RO that stands there, in the order of a walk to the tap.

use super::stages::{by_stage, line, not_checked};
use super::{LONGEST_TITLE, SectionProps, paper, title};
use crate::fields::{FieldView, Notes};
use crate::figure::path::At;
use crate::figure::view::FigureView;
use crate::page::still::Still;
use crate::page::{ids, route};
use crate::sheet::judge::Judged;
use crate::sheet::{about, spoken, summary, use_judged};
use crate::state::record::plan;
use crate::state::{Action, Filling, find};
use crate::store::Id;
use crate::text::{WORDS, fill, say, shortened};
use calc::documents::record::Held;
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Declaration, Draws, Field};
use calc::trade::plan::walk::{AT_THE_TAP, Group, IN_DETAIL, WORKED_OUT};
use std::rc::Rc;
use yew::prelude::*;

/// How many spots of the walk stand in the left half on a wide screen. Columns of the style sheet would balance them by
/// themselves, at the price of three milliseconds of layout at every key press.
const FIRST_HALF: usize = 4;

/// The form, and how the checks stand while it is filled.
#[component]
pub fn Place(props: &SectionProps) -> Html {
    let SectionProps { entry, now, set, .. } = props.clone();
    let sheet = entry.0.declaration;
    let filling = now.filling(sheet);
    let judged = use_judged(entry, &filling, &now.problems);
    let errors = judged.summary(sheet.inputs, &filling, set);
    let form = Form { props, filling: &filling, judged: &judged };
    let stages = by_stage(&judged, sheet);
    let is_blank = judged.values.iter().all(Option::is_none);
    let spots = AT_THE_TAP.iter().enumerate();
    html! {
        <>
            <div class="sheet-head">
                <p class="stage">{ WORDS.section.place }</p>
                <h2 id={ids::VIEW} tabindex="-1">{ title(&now) }</h2>
                if now.record.is_invented() { <p class="record"><span class="tag">{ WORDS.invented }</span></p> }
                { places(props) }
                <p>{ paper::button("print-card", WORDS.section.print_card) }</p>
                <p class="about">{ WORDS.section.about_place }</p>
                { summary::summary(sheet.id, &errors) }
            </div>
            <WhereToRead judged={Rc::clone(&judged)} sheet={Still(sheet)} {set} filling={filling.clone()} />
            <div class="form walk">
                <div>{ for spots.clone().take(FIRST_HALF).map(|(index, group)| form.spot(index + 1, group)) }</div>
                <div>
                    { for spots.skip(FIRST_HALF).map(|(index, group)| form.spot(index + 1, group)) }
                    <h3 class="detail-head">{ WORDS.section.in_detail }</h3>
                    <p>{ WORDS.section.about_detail }</p>
                    { for IN_DETAIL.iter().map(|group| form.folded(group)) }
                </div>
            </div>
            <section class="answers" id={ids::ANSWERS} tabindex="-1" aria-labelledby="so-far">
                { about::left_out(&judged.left_out(sheet.inputs), sheet) }
                <h3 id="so-far">{ WORDS.section.so_far }</h3>
                if is_blank { <p>{ WORDS.section.nothing_entered }</p> }
                <ul class="lines">
                    { for stages.iter().filter(|stage| !is_blank && !stage.waits(&judged, sheet)).map(|stage| line(stage, set)) }
                </ul>
                { not_checked(&stages, &judged, sheet) }
                <p><a class="main-link" href={route::ROOM_CHECK}>{ WORDS.section.to_room_check }</a></p>
            </section>
            <paper::Card {entry} />
            <spoken::Spoken counts={spoken::counts(&judged, sheet)} />
        </>
    }
}

/// What the path on Place is drawn of.
#[derive(Properties, Clone)]
struct WhereProps {
    judged: Rc<Judged>,
    sheet: Still<Declaration>,
    set: UnitSet,
    filling: Filling,
}

impl PartialEq for WhereProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.judged, &other.judged) && self.set == other.set
    }
}

/// The water path with what is read where, made only while it can be seen: no key press waits for it.
#[component]
fn WhereToRead(props: &WhereProps) -> Html {
    let open = use_state_eq(|| false);
    let ontoggle = {
        let open = open.setter();
        Callback::from(move |event: Event| {
            open.set(event.target_unchecked_into::<web_sys::HtmlDetailsElement>().open());
        })
    };
    let WhereProps { judged, sheet, set, filling } = props.clone();
    let paths = sheet.figures.iter().filter(|figure| matches!(figure.draws, Draws::Path { .. }));
    html! {
        <details class="folded" id="where-to-read" {ontoggle}>
            <summary><h3>{ WORDS.section.where_to_read }</h3></summary>
            if *open {
                { for paths.map(|figure| html! {
                    <FigureView figure={Still(*figure)} judged={Rc::clone(&judged)} {sheet} {set}
                        filling={filling.clone()} at={At::Readings} />
                }) }
            }
        </details>
    }
}

/// The places of the record, where there are several, and the way to one more.
fn places(props: &SectionProps) -> Html {
    let record = &props.now.record;
    let named =
        |index: usize| match record.places().get(index).and_then(|place| place.fields.word("place-name")) {
            None => format!("{} {}", WORDS.section.place, index + 1),
            Some(name) => shortened(name, LONGEST_TITLE),
        };
    let onchange = props.send.reform(|event: Event| {
        let list = event.target_unchecked_into::<web_sys::HtmlSelectElement>();
        Action::Place(usize::try_from(list.selected_index()).unwrap_or_default())
    });
    let send = props.send.clone();
    let add = Callback::from(move |_: MouseEvent| {
        if let Some(id) = Id::draw() {
            send.emit(Action::AddPlace(id));
        }
    });
    html! {
        <div class="places">
            if record.places().len() > 1 {
                <label for="place">{ WORDS.section.which_place }</label>
                <select id="place" {onchange}>
                    { for (0..record.places().len()).map(|index| html! {
                        <option value={index.to_string()} selected={index == props.now.place}>{ named(index) }</option>
                    }) }
                </select>
            }
            <button type="button" class="plain" id="add-place" onclick={add}>{ WORDS.section.add_place }</button>
        </div>
    }
}

/// The form with what stands in it.
struct Form<'a> {
    props: &'a SectionProps,
    filling: &'a Filling,
    judged: &'a Judged,
}

impl Form<'_> {
    /// A spot of the walk.
    fn spot(&self, number: usize, group: &'static Group) -> Html {
        self.group(group, Some(number))
    }

    /// A group that is folded until it is asked for.
    fn folded(&self, group: &'static Group) -> Html {
        self.group(group, None)
    }

    fn group(&self, group: &'static Group, number: Option<usize>) -> Html {
        let SectionProps { entry, set, send, .. } = self.props;
        let field = |field: &'static Field| InGroup {
            field: Still(field),
            entry: self.filling.entries.get(field.id).map(Rc::clone),
            notes: self.judged.notes(field, self.filling, *set),
        };
        let fields = fields(group).map(field).collect::<Vec<_>>();
        html! {
            <GroupView group={Still(group)} {number} sheet={Still(entry.declaration)} {fields} set={*set} send={send.clone()} />
        }
    }
}

/// A field of a group, with what stands in it and what is said of it.
#[derive(PartialEq, Clone)]
struct InGroup {
    field: Still<Field>,
    entry: Option<Rc<Held>>,
    notes: Notes,
}

/// A group of the walk. While something is typed into another group, nothing of it is built again.
#[derive(Properties, PartialEq, Clone)]
struct GroupProps {
    group: Still<Group>,
    /// Of a spot on the walk; none of what is asked in detail.
    number: Option<usize>,
    sheet: Still<Declaration>,
    fields: Vec<InGroup>,
    set: UnitSet,
    send: Callback<Action>,
}

#[component]
fn GroupView(props: &GroupProps) -> Html {
    let &GroupProps { group, number, sheet, ref fields, set, ref send } = props;
    let id = format!("group-{}", group.id);
    let inner = html! {
        <>
            <p class="group-about">{ say(group.about) }</p>
            { for fields.iter().map(|InGroup { field, entry, notes }| html! {
                <>
                    <FieldView key={field.id} {sheet} field={*field} entry={entry.clone()} {set} notes={notes.clone()} send={send.clone()} />
                    { worked_out(field.0) }
                </>
            }) }
        </>
    };
    match number {
        Some(number) => html! {
            <section class="group" aria-labelledby={id.clone()}>
                <h3 {id}><span class="group-number">{ number }</span>{ " " }{ say(group.name) }</h3>
                { inner }
            </section>
        },
        // how much of it is filled stands outside
        None => {
            let filled =
                fields.iter().filter(|one| one.entry.as_ref().is_some_and(|held| !held.is_empty())).count();
            let count = [("filled", &*filled.to_string()), ("all", &*fields.len().to_string())];
            html! {
                <details class="group" {id}>
                    <summary>{ say(group.name) }{ " " }<span class="filled">{ fill(WORDS.section.filled, &count) }</span></summary>
                    { inner }
                </details>
            }
        }
    }
}

/// The way to the sheet that works this field out, where there is one.
fn worked_out(field: &'static Field) -> Html {
    let elsewhere = WORKED_OUT.iter().find(|elsewhere| elsewhere.field == field.id);
    let Some(sheet) = elsewhere.and_then(|elsewhere| find(elsewhere.sheet)).map(|entry| entry.declaration)
    else {
        return Html::default();
    };
    html! {
        <p class="worked-out"><a href={route::of_sheet(sheet.id)}>{ fill(WORDS.section.worked_out, &[("sheet", say(sheet.name))]) }</a></p>
    }
}

fn fields(group: &'static Group) -> impl Iterator<Item = &'static Field> {
    let inputs = plan().map_or(&[][..], |plan| plan.inputs);
    group.fields.iter().filter_map(move |asked| inputs.iter().find(|field| field.id == asked.id))
}
