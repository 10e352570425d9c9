//! On which addresses a tablet may ask: those of networks in one's own house.

use std::net::{IpAddr, SocketAddr, UdpSocket};

/// Whether the door may be opened here: on an address that no network hands on to the
/// world. Private IPv4 (RFC 1918), link-local IPv4 (RFC 3927), unique local IPv6 (RFC
/// 4193), and this machine's own. A link-local IPv6 address needs the name of an
/// interface, which no browser takes in an address.
pub(crate) fn may_be_listened_on(address: &IpAddr) -> bool {
    match address.to_canonical() {
        IpAddr::V4(four) => four.is_private() || four.is_link_local() || four.is_loopback(),
        IpAddr::V6(six) => six.is_unique_local() || six.is_loopback(),
    }
}

/// The addresses of this machine in networks of one's own, likeliest first.
pub(super) fn of_this_machine() -> Vec<IpAddr> {
    likeliest_first(all_here(), towards_the_others())
}

/// Every address of this machine, of whatever kind.
fn all_here() -> Vec<IpAddr> {
    let found = nix::ifaddrs::getifaddrs().into_iter().flatten();
    let all = found.filter_map(|one| {
        let address = one.address?;
        let four = address.as_sockaddr_in().map(|a| IpAddr::V4(a.ip()));
        four.or_else(|| address.as_sockaddr_in6().map(|a| IpAddr::V6(a.ip())))
    });
    all.collect()
}

/// Those to listen on out of all that were found; `usual` is the one by which the
/// machine speaks to others.
fn likeliest_first(found: Vec<IpAddr>, usual: Option<IpAddr>) -> Vec<IpAddr> {
    let mut local: Vec<IpAddr> = found
        .into_iter()
        .filter(|one| may_be_listened_on(one) && !one.to_canonical().is_loopback())
        .collect();
    local.sort_by_key(|one| (Some(*one) != usual, how_likely(one), *one));
    local.dedup();
    local
}

/// Networks at home first; short addresses before long ones.
fn how_likely(address: &IpAddr) -> u8 {
    match address {
        IpAddr::V4(four) if four.octets()[0] == 192 => 0,
        IpAddr::V4(four) if four.octets()[0] == 10 => 1,
        IpAddr::V4(four) if !four.is_link_local() => 2,
        IpAddr::V4(_) => 3,
        IpAddr::V6(_) => 4,
    }
}

/// The address by which this machine would speak to others. Nothing is sent: the system
/// only looks up its table of ways (address of RFC 5737, which belongs to nobody).
fn towards_the_others() -> Option<IpAddr> {
    let socket = UdpSocket::bind("0.0.0.0:0").ok()?;
    socket.connect(SocketAddr::from(([192, 0, 2, 1], 9))).ok()?;
    Some(socket.local_addr().ok()?.ip())
}

#[cfg(test)]
mod tests {
    use std::net::IpAddr;

    use super::{all_here, likeliest_first, may_be_listened_on, of_this_machine};

    fn ip(text: &str) -> IpAddr {
        text.parse().expect("an address")
    }

    /// The first and last of each range by its RFC, and their neighbours outside.
    #[test]
    fn only_networks_of_ones_own() {
        for (text, may) in [
            ("9.255.255.255", false),
            ("10.0.0.0", true),
            ("10.255.255.255", true),
            ("11.0.0.0", false),
            ("172.15.255.255", false),
            ("172.16.0.0", true),
            ("172.31.255.255", true),
            ("172.32.0.0", false),
            ("192.167.255.255", false),
            ("192.168.0.0", true),
            ("192.168.255.255", true),
            ("192.169.0.0", false),
            ("169.253.255.255", false),
            ("169.254.0.0", true),
            ("169.254.255.255", true),
            ("169.255.0.0", false),
            ("100.64.0.1", false),
            ("127.0.0.1", true),
            ("0.0.0.0", false),
            ("8.8.8.8", false),
            ("224.0.0.1", false),
            ("255.255.255.255", false),
            ("fbff:ffff::1", false),
            ("fc00::", true),
            ("fdff:ffff:ffff:ffff:ffff:ffff:ffff:ffff", true),
            ("fe00::", false),
            ("fe80::1", false),
            ("2001:db8::1", false),
            ("::", false),
            ("::1", true),
            ("::ffff:192.168.1.1", true),
            ("::ffff:8.8.8.8", false),
        ] {
            assert_eq!(may_be_listened_on(&ip(text)), may, "{text}");
        }
    }

    /// Every machine has itself; a tablet is never sent there.
    #[test]
    fn the_addresses_of_the_machine_are_found() {
        let all = all_here();
        assert!(all.contains(&ip("127.0.0.1")), "{all:?}");
        for one in of_this_machine() {
            assert!(all.contains(&one) && may_be_listened_on(&one), "{one}");
            assert!(!one.is_loopback(), "{one}");
        }
    }

    #[test]
    fn the_likeliest_comes_first_and_none_twice() {
        let found = [
            "127.0.0.1",
            "::1",
            "fd00::2",
            "169.254.7.7",
            "172.17.0.1",
            "10.1.1.1",
            "203.0.113.5",
            "192.168.1.20",
            "10.1.1.1",
        ];
        let found: Vec<IpAddr> = found.into_iter().map(ip).collect();
        let usual = likeliest_first(found.clone(), Some(ip("10.1.1.1")));
        let order = [
            "10.1.1.1",
            "192.168.1.20",
            "172.17.0.1",
            "169.254.7.7",
            "fd00::2",
        ];
        assert_eq!(usual, order.map(ip));
        let public = likeliest_first(found, Some(ip("203.0.113.5")));
        assert_eq!(public[0], ip("192.168.1.20"));
    }
}
