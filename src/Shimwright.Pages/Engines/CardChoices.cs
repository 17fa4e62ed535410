namespace Shimwright.Pages.Engines;

/// <summary>What may be chosen in a field of the card's form.</summary>
/// <param name="Id">The field's own mark in the page.</param>
/// <param name="Options">Each choice, as the card names it, with its title.</param>
/// <param name="Usual">The choice that counts where the card says none; null where it has to say one.</param>
internal sealed record CardChoices(string Id, IReadOnlyList<(string Name, string Title)> Options, string? Usual = null);
