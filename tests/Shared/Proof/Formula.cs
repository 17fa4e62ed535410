namespace Shimwright.Testing.Proof;

/// <summary>A formula that results rest on.</summary>
/// <param name="Id">What tests call it.</param>
/// <param name="Title">What it is about.</param>
/// <param name="Says">The formula.</param>
/// <param name="Because">Its derivation in brief.</param>
/// <param name="Where">The type of the domain that works it out.</param>
/// <param name="Guide">The chapter of the guide that says more.</param>
internal sealed record Formula(string Id, string Title, string Says, string Because, string Where, string Guide);
