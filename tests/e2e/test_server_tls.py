"""Serving the shop's network: its own certificate, secure cookies, and a warning where there is none."""

import os
import socket
import ssl
import stat
import tempfile
import unittest
import warnings

from harness import ProgramTest
from server_harness import PASSWORD, Browser, Server, raw


class Tls(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.directory = tempfile.TemporaryDirectory(prefix="pumpwright-e2e-")
        cls.data = os.path.join(cls.directory.name, "shop")
        cls.server = Server(cls.data, "--tls", "--tls-name", "pumps.shop.internal", "--tls-name", "192.0.2.7")
        cls.browser = Browser(cls.server)

    @classmethod
    def tearDownClass(cls):
        cls.browser.close()
        status = cls.server.stop()
        cls.directory.cleanup()
        assert status == 0, cls.server.log()

    def trusted(self):
        context = ssl.create_default_context(cadata=self.browser.ask("GET", "/shop-certificate.crt").body.decode())
        return context

    def test_a_tablet_that_trusts_the_shop_certificate_connects_under_every_name(self):
        for name in ("localhost", "127.0.0.1", "pumps.shop.internal", "192.0.2.7"):
            with self.subTest(name=name), socket.create_connection((self.server.host, self.server.port), timeout=60) as plain:
                with self.trusted().wrap_socket(plain, server_hostname=name) as link:
                    self.assertIn(link.version(), ("TLSv1.2", "TLSv1.3"))
                    link.sendall(f"GET /api/health HTTP/1.1\r\nHost: {name}\r\nConnection: close\r\n\r\n".encode())
                    self.assertTrue(link.recv(100).startswith(b"HTTP/1.1 200 "))

    def test_another_name_is_not_certified(self):
        with socket.create_connection((self.server.host, self.server.port), timeout=60) as plain:
            with self.assertRaises(ssl.SSLCertVerificationError):
                self.trusted().wrap_socket(plain, server_hostname="evil.example")

    def test_a_tablet_that_does_not_trust_it_refuses(self):
        with socket.create_connection((self.server.host, self.server.port), timeout=60) as plain:
            with self.assertRaises(ssl.SSLCertVerificationError):
                ssl.create_default_context().wrap_socket(plain, server_hostname="localhost")

    def test_old_protocols_are_refused(self):
        context = ssl._create_unverified_context()
        context.minimum_version = ssl.TLSVersion.MINIMUM_SUPPORTED
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", DeprecationWarning)
            context.maximum_version = ssl.TLSVersion.TLSv1_1
        context.set_ciphers("DEFAULT@SECLEVEL=0")
        with socket.create_connection((self.server.host, self.server.port), timeout=60) as plain:
            with self.assertRaises((ssl.SSLError, ConnectionResetError)):
                context.wrap_socket(plain)

    def connects_with(self, ciphers):
        context = ssl._create_unverified_context()
        context.maximum_version = ssl.TLSVersion.TLSv1_2
        context.set_ciphers(ciphers + "@SECLEVEL=0")
        with socket.create_connection((self.server.host, self.server.port), timeout=60) as plain:
            try:
                with context.wrap_socket(plain) as secure:
                    return secure.cipher()[0]
            except (ssl.SSLError, ConnectionResetError):
                return None

    def test_weak_ciphers_are_refused(self):
        for ciphers in ("AES128-SHA", "AES256-GCM-SHA384", "ECDHE-ECDSA-AES128-SHA", "ECDHE-RSA-AES256-SHA384", "ECDHE-ECDSA-AES256-SHA384", "aNULL"):
            with self.subTest(ciphers=ciphers):
                self.assertIsNone(self.connects_with(ciphers))
        self.assertRegex(self.connects_with("DEFAULT"), "^ECDHE-.*(GCM|CHACHA20)")

    def test_plain_text_gets_no_answer_and_does_no_harm(self):
        with socket.create_connection((self.server.host, self.server.port), timeout=60) as plain:
            plain.sendall(b"GET /api/health HTTP/1.1\r\nHost: localhost\r\n\r\n")
            self.assertNotIn(b"200", plain.recv(1000))
        self.assertEqual(self.browser.ask("GET", "/api/health").status, 200)

    def test_cookies_are_secure_and_the_browser_is_told_to_stay_with_tls(self):
        answer = self.browser.ask("POST", "/api/first-person", {"code": self.server.code(), "id": "R.T.", "name": "Lead hand", "password": PASSWORD})
        self.assertEqual(answer.status, 200, answer.body)
        self.assertIn("Secure", answer.headers["Set-Cookie"])
        self.assertTrue(answer.json["secure"])
        self.assertIn("max-age=", answer.headers["Strict-Transport-Security"])
        self.browser.learn_token()
        stream = self.browser.listen("/api/changes")
        self.assertEqual(stream.message()["event"], "change")
        seq = self.browser.hand_in("shop", ("shop-named", {"name": "Over TLS"})).json["seq"]
        self.assertEqual(stream.message()["data"], {"stream": "shop", "seq": seq})
        stream.close()

    def test_the_fingerprint_that_was_printed_is_that_of_the_certificate(self):
        import hashlib

        der = ssl.PEM_cert_to_DER_cert(self.browser.ask("GET", "/shop-certificate.crt").body.decode())
        printed = self.server.wait_for(r"\(SHA-256\): ([0-9A-F:]+)$").group(1)
        self.assertEqual(printed.replace(":", "").lower(), hashlib.sha256(der).hexdigest())
        page = self.browser.ask("GET", "/shop-certificate")
        self.assertIn(b"shop-certificate.crt", page.body)

    def test_keys_and_data_are_for_their_owner_only(self):
        self.assertEqual(stat.S_IMODE(os.stat(self.data).st_mode), 0o700)
        for name in ("shop-key.pem", "server-key.pem", "shop.key"):
            self.assertEqual(stat.S_IMODE(os.stat(os.path.join(self.data, name)).st_mode), 0o600, name)

    def test_a_large_answer_and_a_client_that_leaves_in_the_middle(self):
        with raw(self.server) as link:
            link.sendall(b"GET /api/openapi.json HTTP/1.1\r\nHost: localhost\r\n\r\n")
            link.recv(10)
        self.assertEqual(self.browser.ask("GET", "/api/health").status, 200)


class Listening(ProgramTest):
    def test_the_network_without_tls_is_warned_about(self):
        with tempfile.TemporaryDirectory() as directory:
            server = Server(os.path.join(directory, "shop"), listen="0.0.0.0:0")
            server.wait_for("WARNING: reachable from the network without encryption")
            self.assertEqual(server.stop(), 0)

    def test_loopback_is_not_warned_about(self):
        with tempfile.TemporaryDirectory() as directory:
            server = Server(os.path.join(directory, "shop"))
            self.assertEqual(server.stop(), 0)
            self.assertFalse(any("WARNING" in line for line in server.log()))

    def test_arguments_that_can_not_be_used(self):
        with tempfile.TemporaryDirectory() as directory:
            taken = socket.create_server(("127.0.0.1", 0))
            self.addCleanup(taken.close)
            file = os.path.join(directory, "file")
            open(file, "w").close()
            data = ("--data", os.path.join(directory, "shop"))
            for arguments, said in ((("--listen", "nowhere", *data), "--listen"), (("--listen", "192.0.2.1:0", *data), "--listen"),
                                    (("--listen", f"127.0.0.1:{taken.getsockname()[1]}", *data), "--listen"),
                                    (("--listen", "127.0.0.1:0", "--data", file), "--data"),
                                    (("--listen", "127.0.0.1:0", "--tls-name", "x", *data), "--tls-name"),
                                    (("--listen", "127.0.0.1:0", "--tls", "--tls-name", "a b", *data), "--tls-name")):
                with self.subTest(arguments=arguments):
                    done = self.complaint_last(*arguments)
                    self.assertIn(said, done)

    def complaint_last(self, *arguments):
        """The last line on stderr of a server that can not start: the lines before it are its log."""
        from harness import run

        done = run("serve", *arguments)
        self.assert_ran(done, 2)
        last = done.stderr.splitlines()[-1]
        self.assertRegex(last, r"^pumpwright: .+; valid: .+$")
        return last


if __name__ == "__main__":
    unittest.main()
