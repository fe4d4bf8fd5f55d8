//! The OpenAPI document, made from the same tables that mount the routes.

use super::error::{Fault, Problem};
use super::routes::{API, Need, Route, Surface};
use axum::http::Method;
use utoipa::openapi::path::{HttpMethod, OperationBuilder, ParameterBuilder, ParameterIn};
use utoipa::openapi::request_body::RequestBodyBuilder;
use utoipa::openapi::response::ResponseBuilder;
use utoipa::openapi::schema::{KnownFormat, ObjectBuilder, Schema, SchemaFormat, Type};
use utoipa::openapi::security::{HttpAuthScheme, HttpBuilder, SecurityRequirement, SecurityScheme};
use utoipa::openapi::{
    ComponentsBuilder, ContentBuilder, InfoBuilder, OpenApi, OpenApiBuilder, Paths, Ref, RefOr, Required,
};
use utoipa::{PartialSchema, ToSchema};

/// The document of the routes.
#[must_use]
pub fn document(routes: &[Route]) -> OpenApi {
    let mut paths = Paths::new();
    let mut components = ComponentsBuilder::new()
        .schema(Problem::name(), Problem::schema())
        .schema(Fault::name(), Fault::schema())
        .security_scheme("bearer", SecurityScheme::Http(HttpBuilder::new().scheme(HttpAuthScheme::Bearer).build()));
    for route in routes.iter().filter(|route| route.surface == Surface::Api) {
        paths.add_path_operation(&route.path, vec![method(&route.method)], operation(route));
        if let Some(answer) = &route.about.answers {
            for (name, schema) in &answer.parts {
                components = components.schema(name.clone(), schema.clone());
            }
        }
    }
    OpenApiBuilder::new()
        .info(
            InfoBuilder::new()
                .title("Sowmark")
                .version(env!("CARGO_PKG_VERSION"))
                .description(Some("Calibration records of a fleet of seeders."))
                .license(Some(utoipa::openapi::License::new("MIT OR Apache-2.0")))
                .build(),
        )
        .paths(paths)
        .components(Some(components.build()))
        .build()
}

fn method(method: &Method) -> HttpMethod {
    match *method {
        Method::POST => HttpMethod::Post,
        Method::PUT => HttpMethod::Put,
        Method::PATCH => HttpMethod::Patch,
        Method::DELETE => HttpMethod::Delete,
        _ => HttpMethod::Get,
    }
}

fn operation(route: &Route) -> utoipa::openapi::path::Operation {
    let about = &route.about;
    let tag = route.path.trim_start_matches(API).split('/').nth(1).unwrap_or_default();
    let mut operation =
        OperationBuilder::new().operation_id(Some(about.operation)).summary(Some(about.summary)).tag(tag);
    for name in route.path.split('/').filter_map(|part| part.strip_prefix('{').and_then(|part| part.strip_suffix('}')))
    {
        let id =
            ObjectBuilder::new().schema_type(Type::String).format(Some(SchemaFormat::KnownFormat(KnownFormat::Uuid)));
        operation = operation.parameter(
            ParameterBuilder::new()
                .name(name)
                .parameter_in(ParameterIn::Path)
                .required(Required::True)
                .schema(Some(id)),
        );
    }
    if let Some(RefOr::T(Schema::Object(asked))) = &about.asks {
        for (name, schema) in &asked.properties {
            let required = if asked.required.contains(name) { Required::True } else { Required::False };
            operation = operation.parameter(
                ParameterBuilder::new()
                    .name(name)
                    .parameter_in(ParameterIn::Query)
                    .required(required)
                    .schema(Some(schema.clone())),
            );
        }
    }
    if let Some(taken) = &about.takes {
        operation = operation.request_body(Some(
            RequestBodyBuilder::new()
                .required(Some(Required::True))
                .content("application/json", ContentBuilder::new().schema(Some(taken.clone())).build())
                .build(),
        ));
    }
    if !about.takes_bytes.is_empty() {
        let bytes = || {
            let format = SchemaFormat::KnownFormat(KnownFormat::Binary);
            ContentBuilder::new()
                .schema(Some(ObjectBuilder::new().schema_type(Type::String).format(Some(format))))
                .build()
        };
        let body = RequestBodyBuilder::new().required(Some(Required::True));
        let body = about.takes_bytes.iter().fold(body, |body, kind| body.content(*kind, bytes()));
        operation = operation.request_body(Some(body.build()));
    }
    if route.need != Need::Anyone {
        operation = operation.security(SecurityRequirement::new::<&str, _, &str>("bearer", []));
    }
    for (status, text) in problems(route) {
        let problem = ContentBuilder::new().schema(Some(Ref::from_schema_name(Problem::name()))).build();
        operation = operation
            .response(*status, ResponseBuilder::new().description(*text).content("application/problem+json", problem));
    }
    let mut good = ResponseBuilder::new().description("As asked");
    if let Some(answer) = &about.answers {
        good = good.content("application/json", ContentBuilder::new().schema(Some(answer.schema.clone())).build());
    }
    let good = good.build();
    if about.creates {
        operation = operation.response("201", good.clone());
    }
    operation.response("200", good).build()
}

fn problems(route: &Route) -> &'static [(&'static str, &'static str)] {
    match (route.need, &route.method) {
        (Need::Anyone, _) => &[("503", "The database does not answer")],
        (_, &Method::GET) => &[
            ("401", "Not signed in"),
            ("403", "Signed in with too small a role"),
            ("404", "Not there, or another organization's"),
            ("422", "Understood but wrong"),
        ],
        _ => &[
            ("400", "Not JSON"),
            ("401", "Not signed in"),
            ("403", "Signed in with too small a role"),
            ("404", "Not there, or another organization's"),
            ("409", "The id stands for something else"),
            ("413", "Too large"),
            ("415", "Not JSON"),
            ("422", "Understood but wrong"),
        ],
    }
}
