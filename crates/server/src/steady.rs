//! A body must keep coming: who sends a byte now and then holds no door open.

use std::future::Future;
use std::pin::Pin;
use std::task::{Context, Poll};
use std::time::Duration;

use axum::Error;
use axum::body::{Body, Bytes};
use axum::extract::Request;
use hyper::body::{Body as HttpBody, Frame, SizeHint};
use tokio::time::{Instant, Sleep, sleep};

/// So much must come within the time given. Unit: bytes.
const STRETCH: usize = 64 * 1024;

/// That a body came too slowly.
#[derive(Debug, thiserror::Error)]
#[error("what was sent came too slowly")]
struct TooSlow;

/// A body that must keep coming.
struct Steady {
    body: Body,
    time: Duration,
    // Begun when the body is first asked for.
    until: Option<Pin<Box<Sleep>>>,
    left: usize,
}

/// The same request, of whose body each 64 KiB must come within a time.
pub(crate) fn must_keep_coming(request: Request, time: Duration) -> Request {
    request.map(|body| {
        Body::new(Steady {
            body,
            time,
            until: None,
            left: STRETCH,
        })
    })
}

impl Steady {
    fn came(&mut self, bytes: usize) {
        self.left = self.left.saturating_sub(bytes);
        if self.left == 0 {
            self.left = STRETCH;
            let until = Instant::now() + self.time;
            if let Some(sleep) = &mut self.until {
                sleep.as_mut().reset(until);
            }
        }
    }
}

impl HttpBody for Steady {
    type Data = Bytes;
    type Error = Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, Error>>> {
        let polled = Pin::new(&mut self.body).poll_frame(context);
        if let Poll::Ready(frame) = polled {
            if let Some(Ok(frame)) = &frame {
                self.came(frame.data_ref().map_or(0, Bytes::len));
            }
            return Poll::Ready(frame);
        }
        let time = self.time;
        let until = self.until.get_or_insert_with(|| Box::pin(sleep(time)));
        match until.as_mut().poll(context) {
            Poll::Ready(()) => Poll::Ready(Some(Err(Error::new(TooSlow)))),
            Poll::Pending => Poll::Pending,
        }
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}
