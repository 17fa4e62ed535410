using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Shimwright.Web.Lan;

/// <summary>A certificate and its key in a folder that only its owner reads.</summary>
/// <param name="folder">The folder.</param>
/// <param name="name">What both files are called, without their ends.</param>
internal sealed class CertificateFiles(string folder, string name)
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    private string Certificate => Path.Combine(folder, name + ".crt");

    private string Key => Path.Combine(folder, name + ".key");

    /// <summary>What lies there, or null where nothing does.</summary>
    public X509Certificate2? Read()
    {
        if (!File.Exists(Certificate) && !File.Exists(Key))
        {
            return null;
        }

        try
        {
            return WithKey(X509Certificate2.CreateFromPemFile(Certificate, Key));
        }
        catch (Exception e) when (e is CryptographicException or IOException or UnauthorizedAccessException)
        {
            throw new LanException($"{Certificate} and {Key} cannot be used ({e.Message.TrimEnd('.')}); remove both, start again, and trust the new one on each phone", e);
        }
    }

    public void Write(X509Certificate2 certificate)
    {
        using ECDsa key = certificate.GetECDsaPrivateKey() ?? throw new InvalidOperationException("The certificate has no key.");
        try
        {
            if (OperatingSystem.IsWindows())
            {
                Directory.CreateDirectory(folder);
            }
            else
            {
                Directory.CreateDirectory(folder, OwnerOnly | UnixFileMode.UserExecute);
            }

            // The key first: a certificate is there only where its key is.
            Put(Key, key.ExportPkcs8PrivateKeyPem());
            Put(Certificate, certificate.ExportCertificatePem());
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LanException($"the bench's certificate cannot be kept in {folder} ({e.Message.TrimEnd('.')}); see to it that the folder may be written", e);
        }
    }

    /// <summary>The server's side of a connection wants a key that lies somewhere, on some systems.</summary>
    public static X509Certificate2 WithKey(X509Certificate2 certificate)
    {
        if (!OperatingSystem.IsWindows())
        {
            return certificate;
        }

        using (certificate)
        {
            return X509CertificateLoader.LoadPkcs12(certificate.Export(X509ContentType.Pkcs12), null);
        }
    }

    private static void Put(string file, string text)
    {
        string aside = file + ".new";
        File.Delete(aside);
        FileStreamOptions options = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnerOnly;
        }

        using (var stream = new StreamWriter(aside, options))
        {
            stream.Write(text);
        }

        File.Move(aside, file, overwrite: true);
    }
}
