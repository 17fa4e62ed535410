using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Shimwright.Web.Requests;

namespace Shimwright.Web.Lan;

/// <summary>
/// The server without encryption by which a phone gets to know the bench: it gives away the authority's certificate and a page that says how to trust it,
/// and nothing else. It knows no bench.
/// </summary>
public static class Introduction
{
    private const string File = "/shimwright-authority.crt";

    /// <summary>Builds the server; it is not started yet.</summary>
    /// <param name="port">The port.</param>
    /// <param name="authority">The authority.</param>
    /// <param name="bench">The bench's address, asked for each time.</param>
    /// <returns>The application.</returns>
    public static WebApplication Build(int port, Authority authority, Func<string> bench)
    {
        ArgumentNullException.ThrowIfNull(authority);
        ArgumentNullException.ThrowIfNull(bench);
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { EnvironmentName = Environments.Production, ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = 0;
            kestrel.ListenAnyIP(port, listen => PrivateCallers.Only(listen, null));
        });
        builder.Logging.AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);
        builder.Services.AddRouting();
        WebApplication app = builder.Build();
        app.Use(SecurityHeaders.Add);
        app.MapGet("/", () => Results.Content(Page(authority.Fingerprint, bench()), "text/html; charset=utf-8"));
        app.MapGet(File, () => Results.File(authority.Certificate(), "application/x-x509-ca-cert", File[1..]));
        // The page has no file of its own style: every browser shows it as it is.
        app.MapFallback("{**path}", () => Results.Redirect("/"));
        return app;
    }

    private static string Page(string fingerprint, string bench)
    {
        string safe = HtmlEncoder.Default.Encode(bench);
        return $"""
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <title>Trust this bench - Shimwright</title>
            </head>
            <body>
            <h1>Trust this bench</h1>
            <p>Do this once per phone or tablet. It stops the browser's warning, lets the screen stay on while you work, and keeps others from reading what you tap.</p>
            <h2>1. Get the certificate</h2>
            <p><a href="{File}">Download the certificate</a></p>
            <h2>2. Compare</h2>
            <p>The terminal on the bench's machine, and <em>Settings, Devices</em> there, show this fingerprint. If yours is another, stop: somebody is between you and the bench.</p>
            <p><strong><code>{fingerprint}</code></strong></p>
            <p>Your phone shows it as <em>SHA-256</em> when you open the certificate's details.</p>
            <h2>3. Trust it</h2>
            <ul>
            <li><strong>Android:</strong> Settings, Security, More security settings, Encryption and credentials, Install a certificate, CA certificate. Choose the file.</li>
            <li><strong>iPhone and iPad:</strong> allow the download. Settings, General, VPN and device management: install it. Then Settings, General, About, Certificate trust settings: switch it on.</li>
            <li><strong>Windows:</strong> open the file, Install certificate, Current user, Place in: Trusted root certification authorities.</li>
            <li><strong>macOS:</strong> open the file, add it to the login keychain, open it there and set Trust to Always.</li>
            <li><strong>Linux:</strong> in the browser's settings, Privacy and security, Certificates, Authorities, Import.</li>
            </ul>
            <p>The certificate can vouch for addresses of the workshop's own network, and for the name that its owner gave the bench, for nothing else.</p>
            <h2>4. Open the bench</h2>
            <p><a href="{safe}">{safe}</a></p>
            <h2>Not allowed to trust it?</h2>
            <p>Open the bench, let the browser warn you, and go on. You can work. The screen may go dark by itself.</p>
            </body>
            </html>
            """;
    }
}
