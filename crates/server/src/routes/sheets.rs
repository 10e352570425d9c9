//! Printed sheets, to look at and to print.

use std::sync::Arc;

use utoipa_axum::router::OpenApiRouter;

use crate::house::House;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
}
