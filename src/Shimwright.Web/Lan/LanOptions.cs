using System.Net;

namespace Shimwright.Web.Lan;

/// <summary>How a bench is opened to the devices of a workshop.</summary>
/// <param name="Folder">Where the authority and the certificate are kept, beside the database.</param>
/// <param name="IntroductionPort">The port without encryption, on which nothing but the authority's certificate is given away; 0 for any that is free.</param>
/// <param name="CertificateFile">One's own certificate, or null.</param>
/// <param name="Hosts">Names under which the bench is reached beside the machine's own.</param>
/// <param name="Proxy">The only address that a proxy may call from, or null where there is none.</param>
/// <param name="IsLocked">Whether the machine itself has to be let in too.</param>
public sealed record LanOptions(string Folder, int IntroductionPort, string? CertificateFile, IReadOnlyList<string> Hosts, IPAddress? Proxy, bool IsLocked);
