//! Lists in pages: `{"items": […], "next": "cursor or null"}`.
//!
//! A cursor is the last id of the page. Ids made by the server rise with time, those made elsewhere need not, so lists
//! are ordered by id: every entry comes exactly once, whatever is added meanwhile.

use super::input::Whole;
use crate::input;
use serde::Serialize;
use utoipa::openapi::schema::{ArrayBuilder, ObjectBuilder, Schema, SchemaType, Type};
use utoipa::openapi::{Ref, RefOr};
use utoipa::{PartialSchema, ToSchema};
use uuid::Uuid;

input! {
    /// Which part of a list.
    pub struct PageAsked {
        /// At most this many, 50 unless told.
        pub limit: Option<Whole<1, 500>>,
        /// The cursor that the page before gave as `next`.
        pub after: Option<Uuid>,
    }
}

impl PageAsked {
    /// How many to fetch: one more than shown tells whether there is a next page.
    #[must_use]
    pub fn fetch(&self) -> i64 {
        self.shown() + 1
    }

    #[must_use]
    pub fn after(&self) -> Uuid {
        self.after.unwrap_or(Uuid::nil())
    }

    fn shown(&self) -> i64 {
        self.limit.map_or(50, |limit| limit.0)
    }

    /// The page of what was fetched with [`PageAsked::fetch`].
    pub fn page<T>(&self, mut items: Vec<T>, id: impl Fn(&T) -> Uuid) -> List<T> {
        let shown = usize::try_from(self.shown()).unwrap_or(50);
        let more = items.len() > shown;
        items.truncate(shown);
        let next = if more { items.last().map(|item| id(item).to_string()) } else { None };
        List { items, next }
    }
}

/// Gathers a page of what somebody may see, where the database cannot know it: rows are fetched on until the page is
/// full or the rows are at their end.
///
/// ```text
/// let mut gathered = Gathered::new(asked);
/// while let Some((after, limit)) = gathered.wants() {
///     gathered.add(store::page(cx, after, limit).await?, |row| row.id, |row| scope.lots.includes(&row.lot()));
/// }
/// Ok(gathered.page(|row| row.id))
/// ```
#[derive(Debug)]
pub struct Gathered<'a, T> {
    asked: &'a PageAsked,
    items: Vec<T>,
    /// Where to fetch on; none at the end.
    next: Option<Uuid>,
}

impl<'a, T> Gathered<'a, T> {
    #[must_use]
    pub fn new(asked: &'a PageAsked) -> Self {
        Self { asked, items: Vec::new(), next: Some(asked.after()) }
    }

    /// After which id to fetch, and how many; none when there is enough.
    #[must_use]
    pub fn wants(&self) -> Option<(Uuid, i64)> {
        let enough = i64::try_from(self.items.len()).is_ok_and(|count| count >= self.asked.fetch());
        self.next.filter(|_| !enough).map(|after| (after, self.asked.fetch()))
    }

    /// Adds what was fetched, without what may not be seen.
    pub fn add(&mut self, fetched: Vec<T>, id: impl Fn(&T) -> Uuid, may_see: impl Fn(&T) -> bool) {
        let whole = i64::try_from(fetched.len()).is_ok_and(|count| count >= self.asked.fetch());
        self.next = if whole { fetched.last().map(id) } else { None };
        self.items.extend(fetched.into_iter().filter(may_see));
    }

    /// The page.
    pub fn page(self, id: impl Fn(&T) -> Uuid) -> List<T> {
        self.asked.page(self.items, id)
    }
}

/// A page of a list.
#[derive(Debug, Serialize)]
pub struct List<T> {
    pub items: Vec<T>,
    /// The cursor of the next page, or null at the end.
    pub next: Option<String>,
}

// By hand: the derive names the items' shape without handing it on.
impl<T: ToSchema> PartialSchema for List<T> {
    fn schema() -> RefOr<Schema> {
        let items = ArrayBuilder::new().items(Ref::from_schema_name(T::name()));
        let next = ObjectBuilder::new()
            .schema_type(SchemaType::from_iter([Type::String, Type::Null]))
            .description(Some("The cursor of the next page, or null at the end."));
        ObjectBuilder::new().property("items", items).property("next", next).required("items").required("next").into()
    }
}

impl<T: ToSchema> ToSchema for List<T> {
    fn schemas(parts: &mut Vec<(String, RefOr<Schema>)>) {
        parts.push((T::name().into_owned(), T::schema()));
        T::schemas(parts);
    }
}

impl<T> List<T> {
    /// A list that is always whole.
    #[must_use]
    pub fn whole(items: Vec<T>) -> Self {
        Self { items, next: None }
    }

    /// The same list of what each item becomes.
    pub fn map<U>(self, into: impl Fn(T) -> U) -> List<U> {
        List { items: self.items.into_iter().map(into).collect(), next: self.next }
    }

    /// The same where an item may fail to become it.
    ///
    /// # Errors
    /// The first that cannot become it.
    pub fn try_map<U, E>(self, into: impl Fn(T) -> Result<U, E>) -> Result<List<U>, E> {
        Ok(List { items: self.items.into_iter().map(into).collect::<Result<_, E>>()?, next: self.next })
    }
}
